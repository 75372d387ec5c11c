import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';

/**
 * Tells when the graphics let go of the picture (a driver that starts anew, a machine that wakes) and when it is back. The
 * simulation runs elsewhere and goes on; three puts everything on the graphics again by itself.
 */
export function ContextWatch({ onLost }: { onLost(lost: boolean): void }) {
  const canvas = useThree((state) => state.gl.domElement);
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    const abort = new AbortController();
    canvas.addEventListener('webglcontextlost', () => onLost(true), { signal: abort.signal });
    canvas.addEventListener(
      'webglcontextrestored',
      () => {
        onLost(false);
        invalidate();
      },
      { signal: abort.signal },
    );
    return () => abort.abort();
  }, [canvas, invalidate, onLost]);
  return null;
}
