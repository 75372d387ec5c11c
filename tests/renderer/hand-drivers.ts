import type { HandPose } from '../../sim-core/index.ts';
import type { BenchStandIn } from './bench-stand-in.ts';

/**
 * Somebody at one device, who looks at the torch and goes on until it is where it should be. Each says in events what that device
 * makes a browser say, and nothing that its buttons and axes could not.
 */
export interface Driver {
  to(xMm: number, yMm: number): Promise<void> | void;
  height(mm: number): void;
  lean(xDeg: number, yDeg: number): void;
  pull(on: boolean): void;
  upright?(): void;
  /** Null: the device ends a run at the button of the page. */
  end: (() => void) | null;
}

/** Near enough for a hand. */
export const NEAR = { placeMm: 0.3, heightMm: 0.12, leanDeg: 1.5 } as const;
/** Looks at the torch before somebody gives up. */
const PATIENCE = 20_000;

const MAIN = 1;
const RIGHT = 2;
const BARREL = 2;
const SECOND = 32;

/** Goes on while something is not near; says what could not be brought about. */
function until(near: () => boolean, what: string, go: () => void): void {
  for (let n = 0; !near(); n += 1) {
    if (n === PATIENCE) throw new Error(`This device does not bring the torch to ${what}.`);
    go();
  }
}

const within = (value: number, most: number) => Math.max(-most, Math.min(most, value));

function goals(bench: BenchStandIn) {
  const off = (part: keyof Omit<HandPose, 'trigger'>, goal: number) => goal - bench.pose()[part];
  return {
    off,
    at: (xMm: number, yMm: number) => () => Math.hypot(off('xMm', xMm), off('yMm', yMm)) <= NEAR.placeMm,
    high: (mm: number) => () => Math.abs(off('heightMm', mm)) <= NEAR.heightMm,
    leant: (xDeg: number, yDeg: number) => () => Math.hypot(off('leanXDeg', xDeg), off('leanYDeg', yDeg)) <= NEAR.leanDeg,
  };
}

/** A plain mouse with three buttons and a wheel; measured, it is held by a click first. */
export function mouseDriver(bench: BenchStandIn, { leansOnly = false, measured = false } = {}): Driver {
  const { off, at, high, leant } = goals(bench);
  let clientX = 0;
  let clientY = 0;
  let buttons = 0;
  const mouse = (more: object = {}) => ({ pointerType: 'mouse', pointerId: 1, button: -1, buttons, clientX, clientY, ...more });
  const move = (dx: number, dy: number) => {
    bench.wait(8);
    if (!bench.held()) {
      clientX += dx;
      clientY += dy;
    }
    bench.tell('pointerrawupdate', mouse({ movementX: dx, movementY: dy }));
  };
  const press = (button: number, bit: number, down: boolean) => {
    const alone = down ? buttons === 0 : buttons === bit;
    buttons = down ? buttons | bit : buttons & ~bit;
    // A second button is told by the mouse events alone.
    if (alone) bench.tell(down ? 'pointerdown' : 'pointerup', mouse({ button }));
    bench.tell(down ? 'mousedown' : 'mouseup', mouse({ button }));
  };
  return {
    async to(xMm, yMm) {
      if (measured && !bench.held()) {
        press(0, MAIN, true);
        press(0, MAIN, false);
        await Promise.resolve();
      }
      until(at(xMm, yMm), `${xMm}, ${yMm} mm`, () => move(within(off('xMm', xMm) * 4, 40), within(-off('yMm', yMm) * 4, 40)));
    },
    height(mm) {
      until(high(mm), `${mm} mm above the plate`, () => {
        bench.wait(8);
        bench.tell('wheel', { deltaMode: 0, deltaX: 0, deltaY: within(-off('heightMm', mm) * 250, 100) });
      });
    },
    lean(xDeg, yDeg) {
      if (!leansOnly) press(2, RIGHT, true);
      until(leant(xDeg, yDeg), `a lean of ${xDeg}, ${yDeg} deg`, () =>
        move(within(off('leanXDeg', xDeg) * 5, 20), within(-off('leanYDeg', yDeg) * 5, 20)),
      );
      if (!leansOnly) press(2, RIGHT, false);
    },
    pull: (on) => press(0, MAIN, on),
    upright() {
      press(1, 4, true);
      press(1, 4, false);
    },
    end: null,
  };
}

export interface PenKind {
  tilt: boolean;
  secondButton: boolean;
}

/** A pen that is drawn with in the air or on the tablet; no pen here tells how it is turned. */
export function penDriver(bench: BenchStandIn, { tilt, secondButton }: PenKind): Driver {
  const { off, at, high, leant } = goals(bench);
  const { penTrigger, leansWith } = bench.settings;
  const held = { clientX: 0, clientY: 0, tiltX: 0, tiltY: 0, buttons: 0, pressure: 0, twist: 0 };
  const pen = (more: object = {}) => ({ pointerType: 'pen', pointerId: 7, button: -1, ...held, ...more });
  const move = (dx = 0, dy = 0) => {
    bench.wait(8);
    held.clientX += dx;
    held.clientY += dy;
    bench.tell('pointerrawupdate', pen());
  };
  /** The first button down and the last one up are told by themselves; those between come with a movement. */
  const press = (bit: number, down: boolean, pressure = held.pressure) => {
    const alone = down ? held.buttons === 0 : held.buttons === bit;
    held.buttons = down ? held.buttons | bit : held.buttons & ~bit;
    held.pressure = pressure;
    bench.tell(alone ? (down ? 'pointerdown' : 'pointerup') : 'pointerrawupdate', pen());
  };
  const tip = (down: boolean) => press(MAIN, down, down ? 0.7 : 0);
  const barrel = (down: boolean) => press(BARREL, down);
  const [pull, setHeight] = penTrigger === 'tip' ? [tip, barrel] : [barrel, tip];
  return {
    to: (xMm, yMm) =>
      until(at(xMm, yMm), `${xMm}, ${yMm} mm`, () => move(within(off('xMm', xMm) * 4, 40), within(-off('yMm', yMm) * 4, 40))),
    height(mm) {
      setHeight(true);
      until(high(mm), `${mm} mm above the plate`, () => move(0, within(-off('heightMm', mm) * 30, 40)));
      setHeight(false);
    },
    lean(xDeg, yDeg) {
      if (tilt) {
        Object.assign(held, { tiltX: Math.round(xDeg), tiltY: Math.round(-yDeg) });
        move();
      } else if (secondButton) press(SECOND, true);
      until(leant(xDeg, yDeg), `a lean of ${xDeg}, ${yDeg} deg`, () =>
        move(within(off('leanXDeg', xDeg) * 5, 20), within(-off('leanYDeg', yDeg) * 5, 20)),
      );
      if (!tilt && secondButton && leansWith !== 'pen') press(SECOND, false);
    },
    pull,
    end: null,
  };
}

const STEP_MS = 8;

/** Two sticks, two triggers that tell how far they are pulled, and buttons. */
export function padDriver(bench: BenchStandIn, { leansOnly = false } = {}): Driver {
  const { off, at, high, leant } = goals(bench);
  const axes = [0, 0, 0, 0];
  const values = Array.from({ length: 17 }, () => 0);
  const show = () => {
    bench.pad = { axes: [...axes], buttons: values.map((value) => ({ value, pressed: value > 0.5 })) };
    bench.wait(STEP_MS);
  };
  const tap = (button: number) => {
    for (const value of [1, 0]) {
      values[button] = value;
      show();
    }
  };
  /** Farther away the stick is tilted farther. */
  const tilt = (first: number, x: number, y: number, gentle: number) => {
    const size = Math.hypot(x, y);
    const share = Math.min(1, 0.24 + size / gentle) / size;
    axes[first] = x * share;
    axes[first + 1] = -y * share;
    show();
  };
  const rest = () => {
    axes.fill(0);
    show();
  };
  show();
  return {
    to(xMm, yMm) {
      until(at(xMm, yMm), `${xMm}, ${yMm} mm`, () => tilt(0, off('xMm', xMm), off('yMm', yMm), 30));
      rest();
    },
    height(mm) {
      until(high(mm), `${mm} mm above the plate`, () => {
        const lower = off('heightMm', mm) < 0;
        values[6] = lower ? 0.7 : 0;
        values[4] = lower ? 0 : 1;
        show();
      });
      values[6] = 0;
      values[4] = 0;
      show();
    },
    lean(xDeg, yDeg) {
      const stick = leansOnly ? 0 : 2;
      until(leant(xDeg, yDeg), `a lean of ${xDeg}, ${yDeg} deg`, () =>
        tilt(stick, off('leanXDeg', xDeg), off('leanYDeg', yDeg), 30),
      );
      rest();
    },
    pull(on) {
      values[7] = on ? 1 : 0;
      show();
    },
    upright: () => tap(11),
    end: () => tap(9),
  };
}

type Axis = { part: 'xMm' | 'yMm' | 'heightMm' | 'leanXDeg' | 'leanYDeg'; plus: string; minus: string };
const RIGHT_LEFT: Axis = { part: 'xMm', plus: 'ArrowRight', minus: 'ArrowLeft' };
const AWAY_NEAR: Axis = { part: 'yMm', plus: 'ArrowUp', minus: 'ArrowDown' };
/** Turns of keys before somebody gives up. */
const KEY_TURNS = 40;

/** Keys, at most two and the trigger's at a time: a plain keyboard does not always tell more. */
export function keyDriver(bench: BenchStandIn, { leansOnly = false } = {}): Driver {
  const { off, at, high, leant } = goals(bench);
  const key = (code: string, down: boolean) => bench.tell(down ? 'keydown' : 'keyup', { code, repeat: false });
  /** Holds the key of each axis that is still off, until one has come near, or a guide lets none go on. */
  const hold = (wanted: { axis: Axis; goal: number }[], room: number) => {
    const held = wanted
      .map(({ axis, goal }) => ({ axis, goal, sign: Math.sign(off(axis.part, goal)) }))
      .filter(({ axis, goal, sign }) => off(axis.part, goal) * sign > room);
    const codes = held.map(({ axis, sign }) => (sign > 0 ? axis.plus : axis.minus));
    for (const code of codes) key(code, true);
    for (let last = ''; held.length > 0; ) {
      const offs = held.map(({ axis, goal, sign }) => off(axis.part, goal) * sign);
      if (offs.some((value) => value <= room) || offs.join() === last) break;
      last = offs.join();
      bench.wait(STEP_MS);
    }
    for (const code of codes) key(code, false);
  };
  const check = (near: () => boolean, what: string) => {
    if (!near()) throw new Error(`Keys do not bring the torch to ${what}.`);
  };
  const [leanX, leanY]: [Axis, Axis] = leansOnly
    ? [
        { ...RIGHT_LEFT, part: 'leanXDeg' },
        { ...AWAY_NEAR, part: 'leanYDeg' },
      ]
    : [
        { part: 'leanXDeg', plus: 'KeyD', minus: 'KeyA' },
        { part: 'leanYDeg', plus: 'KeyW', minus: 'KeyS' },
      ];
  const tap = (code: string) => {
    key(code, true);
    key(code, false);
  };
  return {
    to(xMm, yMm) {
      const wanted = [
        { axis: RIGHT_LEFT, goal: xMm },
        { axis: AWAY_NEAR, goal: yMm },
      ];
      for (let n = 0; n < KEY_TURNS && !at(xMm, yMm)(); n += 1) hold(wanted, 0.05);
      check(at(xMm, yMm), `${xMm}, ${yMm} mm`);
    },
    height(mm) {
      hold([{ axis: { part: 'heightMm', plus: 'KeyR', minus: 'KeyF' }, goal: mm }], 0.05);
      check(high(mm), `${mm} mm above the plate`);
    },
    lean(xDeg, yDeg) {
      hold([{ axis: leanX, goal: xDeg }], 0.3);
      hold([{ axis: leanY, goal: yDeg }], 0.3);
      check(leant(xDeg, yDeg), `a lean of ${xDeg}, ${yDeg} deg`);
    },
    pull: (on) => key('Space', on),
    upright: () => tap('KeyU'),
    end: () => tap('KeyE'),
  };
}

/** Two hands: one device leans, the other does all else. */
export function twoHanded(moves: Driver, leans: Driver): Driver {
  return { ...moves, lean: leans.lean, end: moves.end ?? leans.end };
}
