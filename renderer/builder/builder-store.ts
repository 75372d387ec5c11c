import { create } from 'zustand';
import { type Drill, drillSchema, type ParseProblem, parseDrill } from '../../sim-core/index.ts';
import { drillTextOf } from './drill-text-of.ts';
import { beginHistory, type EditHistory, edited, redone, sealed, undone } from './edit-history.ts';
import { problemsInWords } from './problems-in-words.ts';
import { settleDrill } from './settle-drill.ts';

/** What was on the shelf when the builder took it up. */
export interface BuilderBase {
  /** The version that a save replaces; null where the drill is new, or a copy of one that comes with Kerfhand. */
  hash: string | null;
  /** The drill as it was then, to see whether anything has changed since; null = nothing of it is saved. */
  drill: Drill | null;
  /** Saved to be tried only: apprentices do not have it yet. */
  draft?: boolean;
}

export interface BuilderState {
  history: EditHistory<Drill>;
  base: BuilderBase;
  /** Id of the drill that was opened, which a draft is kept under; null = a new one. */
  opened: string | null;
  /** The text as somebody is writing it while it cannot be read, and why not; null while text and form say the same. */
  writing: { text: string; problems: ParseProblem[] } | null;
  /** Place of the plan that was taken hold of last. */
  place: string | null;
}

export const useBuilder = create<BuilderState>(() => ({
  history: beginHistory(undefined as unknown as Drill),
  base: { hash: null, drill: null },
  opened: null,
  writing: null,
  place: null,
}));

export function takeUp(drill: Drill, base: BuilderBase, opened: string | null): void {
  useBuilder.setState({ history: beginHistory(drill), base, opened, writing: null, place: null });
}

/**
 * Changes the drill, with what follows from it; the text is laid out afresh from it. `about` names what is edited: going on with the
 * same thing is one step back. Returns why the change cannot be taken, in one sentence, and nothing has changed; null where it is.
 */
export function edit(change: (drill: Drill) => Drill, about: string | null = null): string | null {
  const { history } = useBuilder.getState();
  const wanted = change(history.present);
  if (wanted === history.present) return null;
  const next = settleDrill(history.present, wanted);
  const parsed = drillSchema.safeParse(next);
  if (!parsed.success) return problemsInWords(parsed.error);
  useBuilder.setState({ history: edited(history, next, about), writing: null });
  return null;
}

/** Takes another drill, such as an older version, in place of the one at hand: as it is, since nothing in it was changed. */
export function replaceWith(drill: Drill): void {
  useBuilder.setState(({ history }) => ({ history: edited(history, drill, null), writing: null }));
}

export const letGo = (): void => useBuilder.setState(({ history }) => ({ history: sealed(history) }));
export const undo = (): void => useBuilder.setState(({ history }) => ({ history: undone(history), writing: null }));
export const redo = (): void => useBuilder.setState(({ history }) => ({ history: redone(history), writing: null }));

/** Takes what somebody writes. As soon as it can be read it is the drill; another id makes it another drill. */
export function write(text: string): void {
  const { history } = useBuilder.getState();
  const read = parseDrill(text);
  if (!read.ok) {
    useBuilder.setState({ writing: { text, problems: read.problems } });
    return;
  }
  const same = drillTextOf(read.value) === drillTextOf(history.present);
  useBuilder.setState({
    history: same ? history : edited(history, read.value, 'text'),
    writing: drillTextOf(read.value) === text ? null : { text, problems: [] },
  });
}

/** The text is laid out afresh from the drill; what could not be read of it is gone. */
export const dropWriting = (): void => useBuilder.setState({ writing: null });
