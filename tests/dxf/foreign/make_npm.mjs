// SPDX-License-Identifier: GPL-3.0-or-later
// Wrote the npm-*.dxf here, with a general-purpose DXF writer (MIT licence):
//   npm install @tarikjabiri/dxf@2.9.0 && node make_npm.mjs
// foreign_test.cpp checks what the files hold, worked out by hand from the numbers below.
import { DxfWriter, Units, LWPolylineFlags, SplineFlags, point3d, point2d } from '@tarikjabiri/dxf';
import { writeFileSync } from 'node:fs';

const p = (x, y, k) => point3d(x * k, y * k, 0);
const corner = (x, y, k, bulge) => ({ point: point2d(x * k, y * k), bulge });

function layers(writer) {
  writer.document.tables.addLType('DASHED', 'Dashed __ __', [5, -3]);
  writer.document.tables.addLayer('OUTLINE', 7, 'CONTINUOUS');
  writer.document.tables.addLayer('HOLES', 7, 'CONTINUOUS');
  writer.document.tables.addLayer('CREASES', 3, 'DASHED');
  writer.document.tables.addLayer('DIMENSIONS', 2, 'CONTINUOUS');
}

// 160 x 100 mm with corners of radius 6, one bend across at y = 50.
function bracket(units, k, file) {
  const writer = new DxfWriter();
  writer.setUnits(units);
  layers(writer);
  const m = writer.modelSpace;
  const q = Math.tan(Math.PI / 8);
  m.addLWPolyline(
    [corner(6, 0, k), corner(154, 0, k, q), corner(160, 6, k), corner(160, 94, k, q), corner(154, 100, k), corner(6, 100, k, q),
     corner(0, 94, k), corner(0, 6, k, q)],
    { flags: LWPolylineFlags.Closed, layerName: 'OUTLINE' });
  m.addLine(p(0, 50, k), p(160, 50, k), { layerName: 'CREASES' });

  // A key-hole, not symmetric, inserted plain, turned and mirrored; in it a hole by another block.
  const hole = writer.addBlock('HOLE');
  hole.addCircle(p(0, 0, k), 3 * k);
  const wedge = writer.addBlock('WEDGE');
  wedge.addLine(p(0, 0, k), p(8, 0, k));
  wedge.addLine(p(8, 0, k), p(0, 4, k));
  wedge.addLine(p(0, 4, k), p(0, 0, k));
  wedge.addInsert('HOLE', p(14, 0, k));
  const pair = writer.addBlock('PAIR');
  pair.addInsert('WEDGE', p(0, 0, k));
  pair.addInsert('WEDGE', p(0, 12, k), { scaleFactor: { x: 1, y: -1, z: 1 } });
  m.addInsert('PAIR', p(15, 10, k), { layerName: 'HOLES' });
  m.addInsert('PAIR', p(80, 10, k), { layerName: 'HOLES', scaleFactor: { x: -1, y: 1, z: 1 } });
  m.addInsert('PAIR', p(110, 15, k), { layerName: 'HOLES', rotationAngle: 90 });
  m.addInsert('HOLE', p(20, 65, k), { layerName: 'HOLES', columnCount: 3, rowCount: 2, columnSpacing: 12 * k, rowSpacing: 15 * k });

  // A circle of radius 8 as a rational spline of degree 2, and an ellipse 12 x 6.
  const w = Math.SQRT1_2;
  m.addSpline({
    controlPoints: [[1, 0], [1, 1], [0, 1], [-1, 1], [-1, 0], [-1, -1], [0, -1], [1, -1], [1, 0]].map(([x, y]) => p(80 + 8 * x, 75 + 8 * y, k)),
    degreeCurve: 2, knots: [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4], weights: [1, w, 1, w, 1, w, 1, w, 1],
    flags: SplineFlags.Closed | SplineFlags.Rational | SplineFlags.Planar,
  }, { layerName: 'HOLES' });
  m.addEllipse(p(110, 75, k), p(12, 0, k), 0.5, 0, 2 * Math.PI, { layerName: 'HOLES' });

  // A square hole of 10 from lines that overlap, one of them doubled.
  m.addLine(p(135, 70, k), p(145, 70, k), { layerName: 'HOLES' });
  m.addLine(p(145, 70, k), p(145, 80, k), { layerName: 'HOLES' });
  m.addLine(p(145, 80, k), p(145, 70, k), { layerName: 'HOLES' });
  m.addLine(p(145, 80, k), p(138, 80, k), { layerName: 'HOLES' });
  m.addLine(p(141, 80, k), p(135, 80, k), { layerName: 'HOLES' });
  m.addLine(p(135, 80, k), p(135, 70, k), { layerName: 'HOLES' });

  m.addText(p(60, 52, k), 3 * k, `DOWN 60%%d R${(2.5 * k).toFixed(4)}`, { layerName: 'DIMENSIONS' });
  m.addText(p(60, 110, k), 3 * k, 'BRACKET, 2 OFF', { layerName: 'DIMENSIONS' });
  m.addMText(p(60, 120, k), 3 * k, 'DEBURR ALL EDGES', { layerName: 'DIMENSIONS' });
  m.addLinearDim(p(0, 0, k), p(160, 0, k), { offset: -10 * k, layerName: 'DIMENSIONS' });
  m.addAlignedDim(p(0, 0, k), p(0, 100, k), { offset: 10 * k, layerName: 'DIMENSIONS' });
  m.addPoint(5, 5, 0, { layerName: 'DIMENSIONS' });
  writeFileSync(file, writer.stringify());
}

// 400 x 300 mm: 600 holes of 4 one by one, 600 more as copies of one block.
function grille(file) {
  const writer = new DxfWriter();
  writer.setUnits(Units.Millimeters);
  layers(writer);
  const m = writer.modelSpace;
  [[0, 0], [400, 0], [400, 300], [0, 300]].forEach(([x, y], i, all) => {
    const [u, v] = all[(i + 1) % 4];
    m.addLine(p(x, y, 1), p(u, v, 1), { layerName: 'OUTLINE' });
  });
  m.addLine(p(0, 150, 1), p(400, 150, 1), { layerName: 'CREASES' });
  writer.addBlock('HOLE').addCircle(p(0, 0, 1), 2);
  for (let i = 0; i < 30; ++i) {
    for (let j = 0; j < 20; ++j) m.addCircle(p(20 + 12 * i, 10 + 6.5 * j, 1), 2, { layerName: 'HOLES' });
  }
  m.addInsert('HOLE', p(20, 160, 1), { layerName: 'HOLES', columnCount: 30, rowCount: 20, columnSpacing: 12, rowSpacing: 6.5 });
  writeFileSync(file, writer.stringify());
}

bracket(Units.Millimeters, 1, 'npm-bracket-mm.dxf');
bracket(Units.Inches, 1 / 25.4, 'npm-bracket-in.dxf');
grille('npm-grille.dxf');
