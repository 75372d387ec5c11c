import { straightThrough } from './determinism-run.ts';

/** What the campaign calls in the browser. */
Object.assign(globalThis, { straightThrough });
