import { useEffect, useRef } from 'react';
import { paintLevel } from '../scene/level-paint.ts';

const WIDTH = 34;
const HEIGHT = 20;
/** Drawn finer than shown, so that it stays sharp on every screen. */
const FINE = 3;

/** A level as it looks on the map: colour and pattern. The words stand beside it. */
export function LevelSwatch({ level }: { level: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context) paintLevel(context, level, 0, 0, WIDTH * FINE, HEIGHT * FINE, 9 * FINE);
  }, [level]);
  return (
    <span className="swatch" aria-hidden="true">
      <canvas ref={canvas} width={WIDTH * FINE} height={HEIGHT * FINE} tabIndex={-1} />
    </span>
  );
}
