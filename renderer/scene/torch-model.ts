import {
  CatmullRomCurve3,
  CylinderGeometry,
  Group,
  LatheGeometry,
  Mesh,
  MeshLambertMaterial,
  TubeGeometry,
  Vector2,
  Vector3,
} from 'three';
import { createGloveModel } from './glove-model.ts';

/** Radius of the grip, mm. */
const SLEEVE_MM = 6.4;

/**
 * The torch: our own plain shape. Tip at the origin, axis along +z. A short head, a straight round grip that leaves it level, a
 * collar where they meet, and a thin mast on top that makes the lean readable from above. `round` = corners that stand for a circle.
 */
export function createTorchModel(round: number): Group {
  const group = new Group();
  const half = Math.ceil(round / 2);
  const body = new MeshLambertMaterial({ color: '#39423f' });
  const grip = new MeshLambertMaterial({ color: '#c7b58f' });
  const metal = new MeshLambertMaterial({ color: '#9a8f83' });
  const mast = new MeshLambertMaterial({ color: '#e9e2cf' });

  // Radius, height: nozzle, cup, head.
  const outline = [
    [0.9, 0],
    [2.2, 0.4],
    [3.6, 3.2],
    [4.4, 9],
    [4.9, 9.4],
    [5.6, 16],
    [5.6, 27],
    [4.2, 31],
    [0, 32],
  ].map(([r, z]) => new Vector2(r, z));
  const head = new Mesh(new LatheGeometry(outline, round), body);
  head.rotation.x = Math.PI / 2;
  group.add(head);

  const cup = new Mesh(
    new LatheGeometry(
      outline.slice(0, 4).map((p) => new Vector2(p.x + 0.06, p.y)),
      round,
    ),
    metal,
  );
  cup.rotation.x = Math.PI / 2;
  group.add(cup);

  const path = new CatmullRomCurve3([
    new Vector3(0, 0, 22),
    new Vector3(9, 4, 26),
    new Vector3(26, 12, 33),
    new Vector3(58, 27, 45),
    new Vector3(104, 49, 60),
  ]);
  group.add(new Mesh(new TubeGeometry(path, round, 5, half), body));
  const [front, back] = [new Vector3(34, 16, 36), new Vector3(96, 45, 57.6)];
  const sleeve = new CatmullRomCurve3([front, new Vector3(60, 28, 45.6), back]);
  group.add(new Mesh(new TubeGeometry(sleeve, half + 4, SLEEVE_MM, half), grip));
  const along = back.clone().sub(front).normalize();
  group.add(createGloveModel({ middle: sleeve.getPoint(0.62), along, radiusMm: SLEEVE_MM }, round));
  const hose = new CatmullRomCurve3([
    new Vector3(104, 49, 60),
    new Vector3(150, 70, 66),
    new Vector3(230, 110, 10),
    new Vector3(330, 170, -180),
  ]);
  group.add(new Mesh(new TubeGeometry(hose, round, 3.4, half), body));

  const rod = new Mesh(new CylinderGeometry(0.5, 0.5, 26, 6), mast);
  rod.rotation.x = Math.PI / 2;
  rod.position.z = 44;
  group.add(rod);
  const bob = new Mesh(new CylinderGeometry(2.2, 2.2, 1.2, half), mast);
  bob.rotation.x = Math.PI / 2;
  bob.position.z = 57;
  group.add(bob);
  return group;
}
