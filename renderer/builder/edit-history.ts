/** Steps back and forth through everything that was done to a drill. Plain data; nothing in it is ever changed in place. */
export interface EditHistory<T> {
  past: readonly T[];
  present: T;
  future: readonly T[];
  /** What the last edit was about; edits of one thing in one go are one step. null = the next edit is a step of its own. */
  about: string | null;
}

/** As many steps back as are kept. */
export const STEPS_KEPT = 200;

export function beginHistory<T>(present: T): EditHistory<T> {
  return { past: [], present, future: [], about: null };
}

/** The history after an edit. `about` as before and not null: the step is still the same one. */
export function edited<T>(history: EditHistory<T>, present: T, about: string | null): EditHistory<T> {
  if (present === history.present) return history;
  const goesOn = about !== null && about === history.about;
  const past = goesOn ? history.past : [...history.past, history.present].slice(-STEPS_KEPT);
  return { past, present, future: [], about };
}

/** The thing at hand is let go: the next edit is a new step. */
export function sealed<T>(history: EditHistory<T>): EditHistory<T> {
  return history.about === null ? history : { ...history, about: null };
}

export function undone<T>(history: EditHistory<T>): EditHistory<T> {
  const present = history.past.at(-1);
  if (present === undefined) return history;
  return { past: history.past.slice(0, -1), present, future: [history.present, ...history.future], about: null };
}

export function redone<T>(history: EditHistory<T>): EditHistory<T> {
  const [present, ...future] = history.future;
  if (present === undefined) return history;
  return { past: [...history.past, history.present], present, future, about: null };
}
