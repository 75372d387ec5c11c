import { cutSampleRun } from './cut-sample-run.ts';
import { SAMPLE_DRILL } from './sample-hand.ts';
import type { YardWithRoles } from './yard-with-roles.ts';

/** An assigned assessment that was cut and handed in: marked by the host, so that it re-simulates to the same. */
export async function handInRun({ instructor, apprentice, ids }: YardWithRoles): Promise<string> {
  const { id: assignmentId } = await instructor.ask('assign', {
    title: 'Test',
    drillIds: [SAMPLE_DRILL],
    personIds: [ids.apprentice],
    cueLevel: 'none',
  });
  const runId = await cutSampleRun(apprentice, { assignmentId });
  await apprentice.ask('submitRun', { runId });
  return runId;
}
