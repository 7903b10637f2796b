# SPDX-License-Identifier: GPL-3.0-or-later
# Measures a DXF with GDAL's reader and GEOS, for measured_test.cpp: prints JSON with, for each layer, the closed curves (area,
# perimeter, centre) and the open ones (length).
import json
import sys

from osgeo import gdal, ogr

gdal.UseExceptions()
gdal.SetConfigOption('OGR_ARC_STEPSIZE', '0.05')
layers = {}
source = ogr.Open(sys.argv[1])
for feature in source.GetLayer(0):
    line = feature.GetGeometryRef()
    entry = layers.setdefault(feature.GetField('Layer'), {'closed': [], 'open': []})
    points = line.GetPoints() if line.GetGeometryName() == 'LINESTRING' else None
    if not points:
        continue  # texts, and blocks as collections
    if len(points) > 2 and max(abs(a - b) for a, b in zip(points[0], points[-1])) < 1e-6:
        ring = ogr.Geometry(ogr.wkbLinearRing)
        for point in points[:-1]:
            ring.AddPoint_2D(point[0], point[1])
        ring.CloseRings()
        polygon = ogr.Geometry(ogr.wkbPolygon)
        polygon.AddGeometry(ring)
        centre = polygon.Centroid()
        entry['closed'].append({'area': polygon.GetArea(), 'perimeter': polygon.Boundary().Length(), 'x': centre.GetX(), 'y': centre.GetY()})
    else:
        entry['open'].append(line.Length())
json.dump(layers, sys.stdout)
