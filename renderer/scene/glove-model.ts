import {
  CapsuleGeometry,
  CylinderGeometry,
  Group,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  SphereGeometry,
  TorusGeometry,
  Vector3,
} from 'three';

/** Of the grip, in the torch's own frame: its middle, the way it runs, and how thick it is, mm. */
export interface Grip {
  middle: Vector3;
  along: Vector3;
  radiusMm: number;
}

/** The forearm goes off to the right and up, so that it hides neither the kerf nor the line ahead. */
const FOREARM = new Vector3(0.8, -0.3, 0.5).normalize();
const FINGERS_MM = [-9.5, -3.2, 3.1, 9.2];
const FINGER_MM = 3;
/** So far round the grip a finger closes, rad. */
const CLOSED_RAD = 4.5;
const CUFF_MM = 52;

/**
 * A gloved hand that holds the grip: palm, four fingers round it, a thumb along it, and a gauntlet. Plain on purpose, and our own.
 * `round` = corners that stand for a circle.
 */
export function createGloveModel({ middle, along, radiusMm }: Grip, round: number): Group {
  const group = new Group();
  const leather = new MeshLambertMaterial({ color: '#8a6a45' });
  const cuffLeather = new MeshLambertMaterial({ color: '#5f4a33' });
  // Its own frame: z along the grip, x to where the palm lies.
  const palmward = FOREARM.clone().addScaledVector(along, -FOREARM.dot(along)).normalize();
  const across = along.clone().cross(palmward);
  group.applyMatrix4(new Matrix4().makeBasis(palmward, across, along).setPosition(middle));
  const half = Math.ceil(round / 2);
  const add = (mesh: Mesh, x: number, y: number, z: number) => {
    mesh.position.set(x, y, z);
    group.add(mesh);
  };

  for (const z of FINGERS_MM) {
    const finger = new Mesh(new TorusGeometry(radiusMm + FINGER_MM * 0.8, FINGER_MM, half, round, CLOSED_RAD), leather);
    // The finger tips end short of the palm, on the far side of it.
    finger.rotation.z = -CLOSED_RAD / 2 - 0.4;
    add(finger, 0, 0, z);
  }
  const palm = new Mesh(new SphereGeometry(1, round, half), leather);
  palm.scale.set(7.5, 10.5, 15.5);
  add(palm, radiusMm + 4, 1.5, 0);
  // Along the top of the grip, toward the head of the torch.
  const thumb = new Mesh(new CapsuleGeometry(3.3, 15, 3, half), leather);
  thumb.rotation.x = Math.PI / 2 + 0.25;
  add(thumb, radiusMm * 0.75, radiusMm + 2.6, -12);

  const cuff = new Mesh(new CylinderGeometry(13.5, 9.5, CUFF_MM, round, 1), cuffLeather);
  const wrist = new Group();
  // A cylinder stands along y.
  const side = FOREARM.clone().cross(along).normalize();
  wrist.applyMatrix4(new Matrix4().makeBasis(side, FOREARM, side.clone().cross(FOREARM)));
  wrist.applyMatrix4(group.matrix.clone().setPosition(0, 0, 0).invert());
  wrist.position.set(radiusMm + 4, 1.5, 0);
  cuff.position.y = CUFF_MM / 2 + 5;
  wrist.add(cuff);
  group.add(wrist);
  return group;
}
