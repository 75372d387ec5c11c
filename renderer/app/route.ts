import { useSyncExternalStore } from 'react';
import { FIRST_TOPIC, type HelpTopic, isHelpTopic } from '../help/help-topics.ts';

/** Where in the app the page is. Kept in the address, so that Back and reload do what people expect. */
export type Route =
  | { at: 'home' }
  | { at: 'bench'; drillId: string; assignmentId?: string }
  | { at: 'first-cut' }
  | { at: 'help'; topic: HelpTopic }
  | { at: 'review'; runId: string }
  | { at: 'builder'; drillId: string | null }
  | { at: 'people' }
  /** Where the hand is measured. */
  | { at: 'hand' }
  | { at: 'assignments' }
  | { at: 'assign' }
  | { at: 'class' }
  | { at: 'packs' }
  | { at: 'backup' }
  | { at: 'record' }
  | { at: 'queue' }
  /** `otherId`: a run, or 'reference' for the hand that does it right. */
  | { at: 'compare'; runId: string; otherId: string }
  | { at: 'moderation'; setId: string | null }
  /** A run that is judged for a moderation set, without a look at anybody else's judgement. */
  | { at: 'blind'; setId: string; runId: string };

export function routeFromHash(hash: string): Route {
  const [, topic] = /^#\/help(?:\/([a-z-]{1,40}))?$/.exec(hash) ?? [];
  if (hash === '#/help' || (topic && isHelpTopic(topic)))
    return { at: 'help', topic: topic && isHelpTopic(topic) ? topic : FIRST_TOPIC };
  if (hash === '#/first-cut') return { at: 'first-cut' };
  if (hash === '#/build') return { at: 'builder', drillId: null };
  if (hash === '#/people') return { at: 'people' };
  if (hash === '#/hand') return { at: 'hand' };
  if (hash === '#/assignments') return { at: 'assignments' };
  if (hash === '#/assignments/new') return { at: 'assign' };
  if (hash === '#/class') return { at: 'class' };
  if (hash === '#/packs') return { at: 'packs' };
  if (hash === '#/backup') return { at: 'backup' };
  if (hash === '#/record') return { at: 'record' };
  if (hash === '#/queue') return { at: 'queue' };
  if (hash === '#/moderation') return { at: 'moderation', setId: null };
  const [, moderated, blindRun] = /^#\/(?:moderation|blind)\/([0-9a-f-]{36})(?:\/([0-9a-f-]{36}))?$/.exec(hash) ?? [];
  if (moderated && blindRun && hash.startsWith('#/blind/')) return { at: 'blind', setId: moderated, runId: blindRun };
  if (moderated && !blindRun && hash.startsWith('#/moderation/')) return { at: 'moderation', setId: moderated };
  const [, first, second] = /^#\/compare\/([0-9a-f-]{36})\/([0-9a-f-]{36}|reference)$/.exec(hash) ?? [];
  if (first && second) return { at: 'compare', runId: first, otherId: second };
  const [, assigned, forAssignment] = /^#\/drill\/([a-z0-9-]{1,80})\/for\/([0-9a-f-]{36})$/.exec(hash) ?? [];
  if (assigned && forAssignment) return { at: 'bench', drillId: assigned, assignmentId: forAssignment };
  const [, room, key] = /^#\/(drill|run|build)\/([A-Za-z0-9-]{1,80})$/.exec(hash) ?? [];
  if (room === 'drill' && key) return { at: 'bench', drillId: key };
  if (room === 'run' && key) return { at: 'review', runId: key };
  if (room === 'build' && key) return { at: 'builder', drillId: key };
  return { at: 'home' };
}

export function hashFromRoute(route: Route): string {
  if (route.at === 'bench') return `#/drill/${route.drillId}${route.assignmentId ? `/for/${route.assignmentId}` : ''}`;
  if (route.at === 'review') return `#/run/${route.runId}`;
  if (route.at === 'builder') return route.drillId === null ? '#/build' : `#/build/${route.drillId}`;
  if (route.at === 'compare') return `#/compare/${route.runId}/${route.otherId}`;
  if (route.at === 'help') return `#/help/${route.topic}`;
  if (route.at === 'first-cut') return '#/first-cut';
  if (route.at === 'assign') return '#/assignments/new';
  if (route.at === 'people' || route.at === 'assignments' || route.at === 'class' || route.at === 'hand') return `#/${route.at}`;
  if (route.at === 'packs' || route.at === 'backup' || route.at === 'record') return `#/${route.at}`;
  if (route.at === 'blind') return `#/blind/${route.setId}/${route.runId}`;
  if (route.at === 'moderation') return route.setId === null ? '#/moderation' : `#/moderation/${route.setId}`;
  if (route.at === 'queue') return '#/queue';
  return '#/';
}

export function goTo(route: Route): void {
  window.location.hash = hashFromRoute(route);
}

function subscribe(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}

export function useHash(): string {
  return useSyncExternalStore(subscribe, () => window.location.hash);
}
