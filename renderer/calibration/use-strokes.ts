import { type RefObject, useEffect, useRef, useState } from 'react';
import type { KeptHandScale } from '../../electron/contract.ts';
import { lockPointer } from '../input/lock-pointer.ts';
import { penLean } from '../input/pen-lean.ts';
import { STROKES, type Stroke, type StrokeFault, type StrokeName, strokeFault } from './hand-strokes.ts';

export interface Strokes {
  done: readonly Stroke[];
  /** The next one that is asked for; null when all count. */
  next: StrokeName | null;
  fault: StrokeFault | null;
  drawing: boolean;
  /** The pointer is held, as a mouse has to be. */
  locked: boolean;
  /** The browser will not hold the pointer at all. */
  refused: boolean;
  raw: boolean;
  /** How the pen leant on average, deg. */
  rest: { xDeg: number; yDeg: number };
  hold(): void;
  again(): void;
}

interface Drawing {
  beganMs: number;
  xPx: number;
  yPx: number;
  pathPx: number;
}

/** Strokes of the hand over a field of the page: a mouse by its movement while it is held, a pen by its places. */
export function useStrokes(field: RefObject<HTMLElement | null>, device: KeptHandScale['device']): Strokes {
  const [done, setDone] = useState<readonly Stroke[]>([]);
  const [fault, setFault] = useState<StrokeFault | null>(null);
  const [drawing, setDrawing] = useState(false);
  const [locked, setLocked] = useState(false);
  const [refused, setRefused] = useState(false);
  const [raw, setRaw] = useState(false);
  const lean = useRef({ xDeg: 0, yDeg: 0, count: 0 });
  const counted = useRef<readonly Stroke[]>([]);
  counted.current = done;

  useEffect(() => {
    const element = field.current;
    if (!element) return;
    const abort = new AbortController();
    const { signal } = abort;
    let at: Drawing | null = null;
    let last: { x: number; y: number } | null = null;
    const held = () => document.pointerLockElement === element;
    const ours = (event: PointerEvent) =>
      device === 'pen' ? event.pointerType === 'pen' : event.pointerType !== 'pen' && held();

    const move = (event: PointerEvent) => {
      if (!at || !ours(event)) return;
      const parts = event.getCoalescedEvents();
      for (const part of parts.length > 0 ? parts : [event]) {
        const dx = device === 'pen' && last ? part.clientX - last.x : part.movementX;
        const dy = device === 'pen' && last ? part.clientY - last.y : part.movementY;
        last = { x: part.clientX, y: part.clientY };
        at.xPx += dx;
        at.yPx += dy;
        at.pathPx += Math.hypot(dx, dy);
        if (device !== 'pen') continue;
        const leant = penLean(part);
        lean.current = {
          xDeg: lean.current.xDeg + leant.xDeg,
          yDeg: lean.current.yDeg + leant.yDeg,
          count: lean.current.count + 1,
        };
      }
    };
    const down = (event: PointerEvent) => {
      if (event.button !== 0 || !ours(event)) return;
      event.preventDefault();
      if (device === 'pen') element.setPointerCapture(event.pointerId);
      at = { beganMs: event.timeStamp, xPx: 0, yPx: 0, pathPx: 0 };
      last = { x: event.clientX, y: event.clientY };
      setDrawing(true);
      setFault(null);
    };
    const up = (event: PointerEvent) => {
      if (!at || event.button !== 0) return;
      const stroke = { netPx: Math.hypot(at.xPx, at.yPx), pathPx: at.pathPx, seconds: (event.timeStamp - at.beganMs) / 1000 };
      drop();
      const name = STROKES[counted.current.length];
      if (name === undefined) return;
      const wrong = strokeFault(name, stroke, counted.current);
      setFault(wrong);
      if (wrong !== null) return;
      setDone([...counted.current, stroke]);
      if (counted.current.length + 1 === STROKES.length && held()) document.exitPointerLock();
    };
    const drop = () => {
      at = null;
      setDrawing(false);
    };
    // Counted where it happens, not once a frame: between two frames the hand may go back and forth.
    element.addEventListener(('onpointerrawupdate' in element ? 'pointerrawupdate' : 'pointermove') as 'pointermove', move, {
      signal,
    });
    element.addEventListener('pointerdown', down, { signal });
    element.addEventListener('pointerup', up, { signal });
    element.addEventListener('pointercancel', drop, { signal });
    document.addEventListener(
      'pointerlockchange',
      () => {
        setLocked(held());
        if (!held() && device === 'mouse') drop();
      },
      { signal },
    );
    return () => {
      abort.abort();
      if (held()) document.exitPointerLock();
    };
  }, [field, device]);

  return {
    done,
    next: STROKES[done.length] ?? null,
    fault,
    drawing,
    locked,
    refused,
    raw,
    rest: {
      xDeg: lean.current.xDeg / Math.max(1, lean.current.count),
      yDeg: lean.current.yDeg / Math.max(1, lean.current.count),
    },
    hold() {
      const element = field.current;
      if (!element || device === 'pen' || document.pointerLockElement === element) return;
      void lockPointer(element).then((how) => {
        setRefused(how === null);
        if (how !== null) setRaw(how === 'raw');
      });
    },
    again() {
      setDone([]);
      setFault(null);
      lean.current = { xDeg: 0, yDeg: 0, count: 0 };
    },
  };
}
