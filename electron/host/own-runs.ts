import type { ParsedRequest, Reply } from '../contract.ts';
import { type Caller, isStaff, mustBeOwn } from './caller.ts';
import { HostError } from './host-error.ts';
import type { RunShelf } from './run-shelf.ts';
import { summaryFor } from './sealed-assessment.ts';

/** Which runs a caller may see and add to. */
export interface OwnRuns {
  /** The person under whom a run is kept: once roles bind, whoever is signed in. @throws HostError 'forbidden' for another */
  beginsFor(personId: string | null, caller: Caller): string | null;
  /** @throws HostError 'forbidden' where the run is somebody else's */
  mustBeSeen(runId: string, caller: Caller): Promise<void>;
  /** Inputs and results come only from where the run was begun, whoever sits there since, or from the person whose run it is. */
  mustBeCut(runId: string, caller: Caller): Promise<void>;
  /** As `mustBeCut`, until somebody else signs in there. */
  mustBeGuessed(runId: string, caller: Caller): Promise<void>;
  mustBeHandedIn(runId: string, caller: Caller): Promise<void>;
  list(request: ParsedRequest<'listRuns'>, caller: Caller): Promise<Reply<'listRuns'>>;
  standings(personId: string | null, caller: Caller): Promise<Reply<'listStandings'>>;
}

export function createOwnRuns(shelf: RunShelf): OwnRuns {
  /** A page knows what was begun on it for longer than somebody is signed in there: that makes only a run of nobody theirs. */
  async function mustBeMine(runId: string, caller: Caller, what: string): Promise<void> {
    const { personId } = await shelf.summary(runId);
    const isMine = personId === null ? begunHere(runId, caller) : personId === caller.person?.id;
    if (!isMine)
      throw new HostError('forbidden', `This run is not of ${caller.person?.name ?? 'anybody signed in'}, so it ${what}.`);
  }

  return {
    beginsFor(personId, caller) {
      if (!caller.rolesBind) return personId;
      const own = caller.person?.id ?? null;
      if (personId === null || personId === own) return own;
      throw new HostError('forbidden', 'A run is kept under the person who is signed in, and under nobody else.');
    },
    async mustBeSeen(runId, caller) {
      if (!isStaff(caller)) await mustBeMine(runId, caller, 'is not shown');
    },
    async mustBeCut(runId, caller) {
      if (caller.rolesBind && !begunHere(runId, caller)) await mustBeMine(runId, caller, 'takes no inputs from here');
    },
    async mustBeGuessed(runId, caller) {
      const isLeft = caller.person === null && begunHere(runId, caller);
      if (caller.rolesBind && !isLeft) await mustBeMine(runId, caller, 'takes no guess from here');
    },
    async mustBeHandedIn(runId, caller) {
      if (caller.rolesBind) await mustBeMine(runId, caller, 'is not theirs to hand in');
    },
    async list(request, caller) {
      if (isStaff(caller)) return await shelf.list(request);
      if (request.personId !== undefined) mustBeOwn(caller, request.personId, 'Runs');
      if (!caller.person) return { total: 0, runs: [] };
      const { total, runs } = await shelf.list({ ...request, personId: caller.person.id }, true);
      return { total, runs: runs.map((run) => summaryFor(caller, run)) };
    },
    async standings(personId, caller) {
      if (!isStaff(caller)) {
        if (personId === null && !caller.person) return { standings: [] };
        mustBeOwn(caller, personId, 'Standings');
      }
      return { standings: await shelf.standings(personId, !isStaff(caller)) };
    },
  };
}

function begunHere(runId: string, { connection }: Caller): boolean {
  return connection.begunRuns.has(runId);
}
