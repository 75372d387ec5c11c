import { useEffect, useMemo, useState } from 'react';
import { callHost } from '../app/host-client.ts';
import { tellTrouble, useYard } from '../app/yard-store.ts';
import { personText } from '../register/person-text.ts';
import type { YardNames } from './entry-words.ts';

/** Names of what the entries of the record speak of. */
export function useYardNames(): YardNames {
  const { people, drills } = useYard();
  const [titles, setTitles] = useState<ReadonlyMap<string, string>>(new Map());
  useEffect(() => {
    let wanted = true;
    Promise.all([callHost('listAssignments', {}), callHost('listModerationSets', {})]).then(([{ assignments }, { sets }]) => {
      if (wanted) setTitles(new Map([...assignments, ...sets].map(({ id, title }) => [id, title])));
    }, tellTrouble);
    return () => {
      wanted = false;
    };
  }, []);
  return useMemo(() => {
    const personNames = new Map(people.map(({ id, name }) => [id, name]));
    const drillTitles = new Map(drills.map(({ id, title }) => [id, title]));
    return {
      person: (id) => personText(personNames.get(id) ?? '') || null,
      drill: (id) => drillTitles.get(id) ?? null,
      assignment: (id) => titles.get(id) ?? null,
      set: (id) => titles.get(id) ?? null,
    };
  }, [people, drills, titles]);
}
