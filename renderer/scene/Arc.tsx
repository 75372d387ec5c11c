import { useFrame } from '@react-three/fiber';
import { useMemo, useRef } from 'react';
import {
  AdditiveBlending,
  CanvasTexture,
  CylinderGeometry,
  type Group,
  Mesh,
  MeshBasicMaterial,
  type PointLight,
  Quaternion,
  Sprite,
  SpriteMaterial,
  Vector3,
} from 'three';
import { ARC_STATES } from '../../sim-core/index.ts';
import { arcWidening } from './arc-look.ts';
import type { LightLevel } from './light-level.ts';
import type { RunSource } from './run-source.ts';
import { torchAxis } from './Torch.tsx';

const PILOT = ARC_STATES.indexOf('pilot');
const TRANSFERRED = ARC_STATES.indexOf('transferred');
const PILOT_REACH_MM = 3;
/** Where calm is asked for the glow is weaker too. */
const CALM_GLOW = 0.6;
const UP = new Vector3(0, 0, 1);
const axis = new Vector3();
const across = new Vector3();
const strayed = new Quaternion();

function glowTexture(): CanvasTexture {
  const canvas = document.createElement('canvas');
  canvas.width = 128;
  canvas.height = 128;
  const context = canvas.getContext('2d');
  if (context) {
    const glow = context.createRadialGradient(64, 64, 0, 64, 64, 64);
    glow.addColorStop(0, 'rgba(255,255,255,1)');
    glow.addColorStop(0.16, 'rgba(205,232,255,0.85)');
    glow.addColorStop(0.45, 'rgba(120,170,235,0.22)');
    glow.addColorStop(1, 'rgba(60,100,180,0)');
    context.fillStyle = glow;
    context.fillRect(0, 0, 128, 128);
  }
  return new CanvasTexture(canvas);
}

export interface ArcProps {
  source: RunSource;
  lit: boolean;
  level: LightLevel;
  calm: boolean;
}

/** The arc from tip to metal, or a short pilot; its reach below the plate is the share of power that passes through. */
export function Arc({ source, lit, level, calm }: ArcProps) {
  const column = useRef<Group>(null);
  const light = useRef<PointLight>(null);
  const width = useMemo(() => arcWidening(source.setup), [source]);
  const parts = useMemo(() => {
    const soft = new MeshBasicMaterial({
      color: '#9fc6ff',
      transparent: true,
      opacity: 0.55,
      blending: AdditiveBlending,
      depthWrite: false,
    });
    const bright = new MeshBasicMaterial({
      color: '#ffffff',
      transparent: true,
      opacity: 0.95,
      blending: AdditiveBlending,
      depthWrite: false,
    });
    // Unit columns along -z from the tip.
    const make = (top: number, foot: number, material: MeshBasicMaterial) => {
      const geometry = new CylinderGeometry(top, foot, 1, 14, 1, true);
      geometry.rotateX(Math.PI / 2);
      geometry.translate(0, 0, -0.5);
      return new Mesh(geometry, material);
    };
    const halo = new Sprite(
      new SpriteMaterial({ map: glowTexture(), blending: AdditiveBlending, depthWrite: false, transparent: true }),
    );
    // Burns between the torch's own parts where it should not: steady, and of another colour than the arc.
    const inside = new Sprite(
      new SpriteMaterial({
        map: glowTexture(),
        color: '#ff9a4d',
        blending: AdditiveBlending,
        depthWrite: false,
        transparent: true,
      }),
    );
    return { sheath: make(0.85, 0.45, soft), core: make(0.42, 0.16, bright), soft, bright, halo, inside };
  }, []);

  useFrame(() => {
    const { sample, hand } = source;
    const state = sample.arcState;
    const on = state === TRANSFERRED ? 1 : state === PILOT ? 0.35 : 0;
    // The glow is wide: it swells and fades slowly enough never to flash. The arc itself is a few pixels wide and comes and goes at
    // once, but where calm is asked for it goes with its glow.
    const glow = level.glow * (calm ? CALM_GLOW : 1);
    const seen = calm ? level.glow > 0.3 : on > 0;
    if (!column.current) return;
    torchAxis(hand.leanXDeg, hand.leanYDeg, axis);
    column.current.visible = seen && Number.isFinite(sample.xMm);
    column.current.position.set(sample.xMm, sample.yMm, sample.standOffMm);
    column.current.quaternion.setFromUnitVectors(UP, axis);
    // The core says how far the arc points off the axis; it is shown across the way of travel.
    if (Number.isFinite(sample.arcLeanDeg) && sample.arcLeanDeg !== 0) {
      const heading = Number.isFinite(sample.headingRad) ? sample.headingRad : 0;
      across.set(Math.cos(heading), Math.sin(heading), 0);
      column.current.quaternion.premultiply(strayed.setFromAxisAngle(across, (sample.arcLeanDeg * Math.PI) / 180));
    }
    const thickness = source.setup.thicknessMm;
    const through = Number.isFinite(sample.throughFraction) ? sample.throughFraction : 0;
    const into = Math.min(1, Math.max(0, sample.penetration)) * thickness + through * 14;
    const reach = state === TRANSFERRED ? (sample.standOffMm + into) / axis.z : PILOT_REACH_MM;
    parts.sheath.scale.set(width, width, reach);
    parts.core.scale.set(width, width, reach);
    // The same light spread over a wider jet.
    parts.bright.opacity = 0.95 / (width * width);
    const doubled = on > 0 && Number.isFinite(sample.doubleArcShare) ? sample.doubleArcShare : 0;
    parts.inside.visible = doubled > 0.005 && Number.isFinite(sample.xMm);
    parts.inside.position.set(sample.xMm + axis.x * 4, sample.yMm + axis.y * 4, sample.standOffMm + axis.z * 4);
    parts.inside.scale.setScalar(8 + 30 * Math.min(0.5, doubled));
    parts.inside.material.opacity = Math.min(0.9, 0.35 + 3 * doubled);
    parts.halo.visible = glow > 0.02 && Number.isFinite(sample.xMm);
    parts.halo.position.set(sample.xMm, sample.yMm, Math.max(0.6, sample.standOffMm * 0.4));
    parts.halo.scale.setScalar(9 + 17 * glow);
    parts.halo.material.opacity = glow * 0.8;
    if (light.current) {
      light.current.position.set(sample.xMm, sample.yMm, sample.standOffMm + 6);
      light.current.intensity = glow * 5200;
    }
  });

  return (
    <>
      <group ref={column}>
        <primitive object={parts.sheath} />
        <primitive object={parts.core} />
      </group>
      <primitive object={parts.halo} />
      <primitive object={parts.inside} />
      {lit && <pointLight ref={light} color="#bcd6ff" distance={260} decay={2} intensity={0} />}
    </>
  );
}
