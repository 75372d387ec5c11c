import type { Drill } from '../../sim-core/index.ts';
import { PageError } from '../app/error-words.ts';
import { callHost } from '../app/host-client.ts';
import { drillFromText } from '../drills/read-drill.ts';
import { say } from '../text/say.ts';
import type { CueHistory } from './cues-for.ts';

export interface FoundDrill {
  drill: Drill;
  /** The very version. */
  drillHash: string;
  /** Its file's text. */
  drillText: string;
  /** Attempts made before: of the assignment, or in free practice all. */
  earlier: number;
  /** What the cues go by. */
  history: CueHistory;
}

/**
 * The drill that is to be cut. Under an assignment: the version that was assigned, with the cues and attempts that were set there.
 * @throws HostError, or PageError where the assignment does not ask this person for this drill
 */
export async function findDrill(drillId: string, personId: string | null, assignmentId: string | null): Promise<FoundDrill> {
  if (assignmentId !== null && personId === null) throw new PageError(say('bench.assigned.nobody'));
  if (assignmentId !== null && personId !== null) return await assignedDrill(drillId, personId, assignmentId);
  const [{ drill: summary, text }, { total }] = await Promise.all([
    callHost('getDrill', { id: drillId }),
    callHost('listRuns', { drillId, ...(personId ? { personId } : {}), limit: 1 }).catch(() => ({ total: 0 })),
  ]);
  const drill = drillFromText(text);
  return { drill, drillHash: summary.hash, drillText: text, earlier: total, history: await historyOf(drill, personId) };
}

async function assignedDrill(drillId: string, personId: string, assignmentId: string): Promise<FoundDrill> {
  const { due } = await callHost('listDue', { personId });
  const assignment = due.find((one) => one.assignmentId === assignmentId);
  const asked = assignment?.drills.find((one) => one.drillId === drillId);
  if (!assignment || !asked) throw new PageError(say('bench.assigned.not-asked'));
  const { text } = await callHost('getDrill', { hash: asked.drillHash });
  const drill = drillFromText(text);
  return {
    drill: {
      ...drill,
      cueLevel: assignment.cueLevel ?? drill.cueLevel,
      attempts: asked.left === null ? null : asked.used + asked.left,
    },
    drillHash: asked.drillHash,
    drillText: text,
    earlier: asked.used,
    history: await historyOf(drill, personId),
  };
}

/** Own attempts at a drill and at its technique. Practice goes on where the records cannot say: then as for a newcomer. */
async function historyOf(drill: Drill, personId: string | null): Promise<CueHistory> {
  const newcomer = { ofOnePerson: personId !== null, tries: 0, passed: false, techniqueTries: 0 };
  try {
    const [{ standings }, { drills }] = await Promise.all([callHost('listStandings', { personId }), callHost('listDrills', {})]);
    const own = standings.find((standing) => standing.drillId === drill.id);
    const related = new Set(drills.filter((one) => one.technique === drill.technique && one.id !== drill.id).map(({ id }) => id));
    const techniqueTries = standings.reduce((sum, standing) => sum + (related.has(standing.drillId) ? standing.tries : 0), 0);
    return { ...newcomer, tries: own?.tries ?? 0, passed: own?.passed ?? false, techniqueTries };
  } catch {
    return newcomer;
  }
}
