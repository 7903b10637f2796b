# SPDX-License-Identifier: GPL-3.0-or-later
# Wrote the gdal-*.dxf here, with the DXF writer of GDAL 3.6 (Debian: python3-gdal):
#   /usr/bin/python3 make_gdal.py
# Its header says inches whatever is drawn: the millimetre files need "--units mm".
from osgeo import gdal, ogr

gdal.UseExceptions()
gdal.SetConfigOption('DXF_WRITE_HATCH', 'NO')


def feature(layer, on, wkt, k, style=None, block=None, text=None, line_type=None):
    f = ogr.Feature(layer.GetLayerDefn())
    g = ogr.CreateGeometryFromWkt(wkt)
    if k != 1:
        def scale(h):
            for i in range(h.GetPointCount()):
                h.SetPoint_2D(i, h.GetX(i) * k, h.GetY(i) * k)
            for i in range(h.GetGeometryCount()):
                scale(h.GetGeometryRef(i))
        scale(g)
    f.SetGeometry(g)
    f.SetField('Layer', on)
    if style:
        f.SetStyleString(style)
    if line_type:
        f.SetField('Linetype', line_type)
    if block:
        f.SetField('BlockName' if layer.GetName() == 'entities' else 'Block', block)
    layer.CreateFeature(f)


# 120 x 90 mm with a notch; two flanges along the long sides, bent at y = 20 and y = 70; a window across neither.
def tray(name, k):
    ds = gdal.GetDriverByName('DXF').Create(name, 0, 0, 0, gdal.GDT_Unknown)
    blocks = ds.CreateLayer('blocks')
    layer = ds.CreateLayer('entities')
    feature(blocks, 'CUT_HOLES', 'POLYGON((-4 -4, 4 -4, 4 4, -4 4, -4 -4))', k, block='SQUARE')
    feature(layer, 'CUT_PROFILE', 'POLYGON((0 0, 120 0, 120 90, 0 90, 0 60, 10 60, 10 50, 0 50, 0 0), (50 35, 70 35, 70 55, 50 55, 50 35))', k)
    feature(layer, 'BEND', 'LINESTRING(0 20, 120 20)', k)
    feature(layer, 'BEND', 'LINESTRING(0 70, 120 70)', k)
    feature(layer, 'NOTES', 'POINT(40 85)', k, style='LABEL(f:"Arial",t:"TRAY 1",s:4g)')
    feature(layer, 'CUT_HOLES', 'POINT(30 45)', k, block='SQUARE', style='SYMBOL(a:45)')
    feature(layer, 'CUT_HOLES', 'POINT(95 45)', k, block='SQUARE')
    ds = None


tray('gdal-tray-mm.dxf', 1)
tray('gdal-tray-in.dxf', 1 / 25.4)
