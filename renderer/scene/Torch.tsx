import { useFrame } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { DoubleSide, type Group, Mesh, MeshBasicMaterial, RingGeometry, Vector3 } from 'three';
import { fixedLight, type LightLevel } from './light-level.ts';
import { disposeModel, mergedModel, setModelLevel } from './merged-model.ts';
import type { RunSource } from './run-source.ts';
import { createTorchModel } from './torch-model.ts';
import { createTorchSpatter, showSpatter } from './torch-spatter.ts';

const UP = new Vector3(0, 0, 1);
const axis = new Vector3();

/** Direction from tip to handle for a pair of leans, degrees; see HandTick of the core. */
export function torchAxis(leanXDeg: number, leanYDeg: number, out: Vector3): Vector3 {
  return out.set(Math.tan((leanXDeg * Math.PI) / 180), Math.tan((leanYDeg * Math.PI) / 180), 1).normalize();
}

export interface TorchProps {
  source: RunSource;
  theme: 'dark' | 'light';
  shadows: boolean;
  lean: boolean;
  level: LightLevel;
}

/** The torch where the core has it, with a ring on the plate where its axis points. */
export function Torch({ source, theme, shadows, lean, level }: TorchProps) {
  const group = useRef<Group>(null);
  const model = useMemo(() => {
    const torch = mergedModel(createTorchModel(lean ? 12 : 24), lean ? fixedLight(theme) : null);
    torch.castShadow = shadows;
    return torch;
  }, [shadows, theme, lean]);
  useEffect(() => () => disposeModel(model), [model]);
  const spatter = useMemo(createTorchSpatter, []);
  useEffect(
    () => () => {
      spatter.geometry.dispose();
      spatter.material.dispose();
    },
    [spatter],
  );
  const ring = useMemo(() => {
    const material = new MeshBasicMaterial({
      color: '#ffe9b0',
      transparent: true,
      opacity: 0.85,
      side: DoubleSide,
      depthWrite: false,
    });
    return new Mesh(new RingGeometry(1.9, 2.4, 32), material);
  }, []);

  useFrame(() => {
    const { sample, hand } = source;
    const known = Number.isFinite(sample.xMm);
    setModelLevel(model, level.value);
    showSpatter(spatter, sample.blowbackMj, source.ejecta);
    if (group.current) {
      group.current.visible = known;
      group.current.position.set(sample.xMm, sample.yMm, sample.standOffMm);
      group.current.quaternion.setFromUnitVectors(UP, torchAxis(hand.leanXDeg, hand.leanYDeg, axis));
    }
    const reach = sample.standOffMm / axis.z;
    ring.visible = known;
    ring.position.set(sample.xMm - axis.x * reach, sample.yMm - axis.y * reach, 0.12);
    // The ring opens with height: a second sign of stand-off, beside the figure.
    ring.scale.setScalar(1 + Math.min(2, sample.standOffMm * 0.12));
  });

  return (
    <>
      <group ref={group}>
        <primitive object={model} />
        <primitive object={spatter} />
      </group>
      <primitive object={ring} />
    </>
  );
}
