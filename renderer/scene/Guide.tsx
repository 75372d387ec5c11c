import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { BoxGeometry, BufferGeometry, DoubleSide, Float32BufferAttribute, type Group, type Mesh } from 'three';
import type { GuideShape } from './guide-shape.ts';
import type { RunSource } from './run-source.ts';

/** The guide lies on the plate and is this high, mm. */
const HEIGHT_MM = 4;
const COLOUR = '#b9a26a';

/** A bar between two lines: its top and its two long sides. */
function barGeometry(shape: GuideShape): BufferGeometry {
  const at: number[] = [];
  const quad = (...corners: (readonly [number, number, number])[]) => {
    const [a, b, c, d] = corners as [(typeof corners)[0], (typeof corners)[0], (typeof corners)[0], (typeof corners)[0]];
    for (const corner of [a, b, c, a, c, d]) at.push(...corner);
  };
  for (let n = 0; n + 1 < shape.edge.length; n += 1) {
    const [e0, e1, b0, b1] = [shape.edge[n], shape.edge[n + 1], shape.back[n], shape.back[n + 1]];
    if (!e0 || !e1 || !b0 || !b1) continue;
    const up = (p: { xMm: number; yMm: number }) => [p.xMm, p.yMm, HEIGHT_MM] as const;
    const down = (p: { xMm: number; yMm: number }) => [p.xMm, p.yMm, 0.1] as const;
    quad(up(e0), up(e1), up(b1), up(b0));
    quad(down(e0), down(e1), up(e1), up(e0));
    quad(down(b1), down(b0), up(b0), up(b1));
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new Float32BufferAttribute(at, 3));
  geometry.computeVertexNormals();
  return geometry;
}

/** What holds the hand to the line: a bar or template on the plate, or an arm from its pin to the torch; and the front that slides along it. */
export function Guide({ source, shape }: { source: RunSource; shape: GuideShape }) {
  const bar = useMemo(() => (shape.edge.length > 0 ? barGeometry(shape) : null), [shape]);
  // One millimetre long from the pin outward, to be stretched.
  const unitBeam = useMemo(() => new BoxGeometry(1, 2.4, 1.6).translate(0.5, 0, 0), []);
  const arm = useRef<Group>(null);
  const beam = useRef<Mesh>(null);
  const rim = useRef<Mesh>(null);
  useEffect(() => () => bar?.dispose(), [bar]);
  useEffect(() => () => unitBeam.dispose(), [unitBeam]);
  useFrame(() => {
    const { sample } = source;
    const known = Number.isFinite(sample.xMm);
    if (rim.current) {
      rim.current.visible = known;
      rim.current.position.set(sample.xMm, sample.yMm, sample.standOffMm + 2.5);
    }
    if (!arm.current || !shape.pin) return;
    arm.current.visible = known;
    const [dx, dy] = [sample.xMm - shape.pin.xMm, sample.yMm - shape.pin.yMm];
    arm.current.rotation.z = Math.atan2(dy, dx);
    beam.current?.scale.set(Math.max(0.1, Math.hypot(dx, dy) - shape.frontRadiusMm), 1, 1);
  });
  return (
    <>
      {bar && (
        <mesh geometry={bar}>
          <meshLambertMaterial color={COLOUR} side={DoubleSide} />
        </mesh>
      )}
      {shape.pin && (
        <group ref={arm} position={[shape.pin.xMm, shape.pin.yMm, 0]}>
          <mesh position={[0, 0, 4]} rotation={[Math.PI / 2, 0, 0]}>
            <cylinderGeometry args={[2.2, 1.2, 8, 16]} />
            <meshLambertMaterial color={COLOUR} />
          </mesh>
          <group position={[0, 0, 7]}>
            <mesh ref={beam} geometry={unitBeam}>
              <meshLambertMaterial color={COLOUR} />
            </mesh>
          </group>
        </group>
      )}
      <mesh ref={rim} rotation={[Math.PI / 2, 0, 0]}>
        <cylinderGeometry args={[shape.frontRadiusMm, shape.frontRadiusMm, 3, 40, 1, true]} />
        <meshLambertMaterial color={COLOUR} side={DoubleSide} transparent opacity={0.4} depthWrite={false} />
      </mesh>
    </>
  );
}
