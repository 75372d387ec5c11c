import type { Assignment, Group, Person } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { dayText } from './dates.ts';
import { personText } from './person-text.ts';

const NAMED = 2;

/** Whom it is for: names where they are few, else how many. */
export function forWhomWords({ groupIds, personIds }: Assignment, groups: readonly Group[], people: readonly Person[]): string {
  const groupNames = groups.filter((group) => groupIds.includes(group.id)).map((group) => group.name);
  const names = people.filter((person) => personIds.includes(person.id)).map((person) => personText(person.name));
  const words: string[] = [];
  if (groupNames.length > NAMED) words.push(say('assign.groups', { count: groupNames.length }).replace(' ', '\u00a0'));
  else words.push(...groupNames.map((group) => say('assign.group', { group })));
  if (names.length > NAMED) words.push(say('assign.people', { count: names.length }).replace(' ', '\u00a0'));
  else words.push(...names);
  return words.length === 0 ? say('assign.nobody') : words.join(', ');
}

export function attemptsWords({ attempts }: Assignment): string {
  return attempts === null ? say('assign.attempts.each') : String(attempts);
}

export function cueWords({ cueLevel }: Assignment): string {
  return say(`assign.cue.${cueLevel ?? 'null'}`);
}

export function stateWords({ withdrawnAt, dueAt }: Assignment, nowMs: number): string {
  if (withdrawnAt !== null) return say('assign.state.withdrawn', { date: dayText(withdrawnAt) });
  return dueAt !== null && Date.parse(dueAt) < nowMs ? say('assign.state.over') : say('assign.state.open');
}

/** Titles in quotation marks. */
export function titlesWords(assignments: readonly Pick<Assignment, 'title'>[]): string {
  return assignments.map(({ title }) => say('groups.delete.title-of', { title })).join(', ');
}

/** What is about to be assigned, and to how many. */
export function sumWords(drills: number, people: number): string {
  return say('assign.form.sum', {
    drills: drills === 1 ? say('assign.form.drill') : say('assign.form.drills', { count: drills }),
    people: people === 1 ? say('assign.form.person') : say('assign.form.persons', { count: people }),
  });
}

/** Everybody meant, each once. */
export function peopleMeant(personIds: ReadonlySet<string>, groupIds: ReadonlySet<string>, groups: readonly Group[]): number {
  const members = groups.filter((group) => groupIds.has(group.id)).flatMap((group) => group.memberIds);
  return new Set([...personIds, ...members]).size;
}
