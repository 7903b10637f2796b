# SPDX-License-Identifier: GPL-3.0-or-later
# Measures a DXF with GDAL's reader, for cut_drawing_test.cpp: prints JSON with, for each layer, the boxes of closed curves, points and
# the ends of open lines.
import json
import sys

from osgeo import gdal, ogr

gdal.UseExceptions()
gdal.SetConfigOption('OGR_ARC_STEPSIZE', '0.05')
layers = {}
source = ogr.Open(sys.argv[1])
for feature in source.GetLayer(0):
    shape = feature.GetGeometryRef()
    entry = layers.setdefault(feature.GetField('Layer'), {'closed': [], 'open': [], 'points': []})
    points = shape.GetPoints() or []
    if shape.GetGeometryName() == 'POINT':
        entry['points'].append(list(points[0][:2]))
    elif len(points) > 2 and max(abs(a - b) for a, b in zip(points[0], points[-1])) < 1e-6:
        low_x, high_x, low_y, high_y = shape.GetEnvelope()
        entry['closed'].append({'width': high_x - low_x, 'height': high_y - low_y, 'x': 0.5 * (low_x + high_x), 'y': 0.5 * (low_y + high_y)})
    else:
        entry['open'].append([list(points[0][:2]), list(points[-1][:2])])
json.dump(layers, sys.stdout)
