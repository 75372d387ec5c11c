import { WorkAction } from '../app/WorkAction.tsx';
import { useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { useDemoYard } from './demo-yard.ts';
import { personText } from './person-text.ts';
import { signIn } from './signed-in.ts';

/** In the demo yard the passphrases stand on the door: who can be looked over the shoulder of, and what to look at. */
export function DemoEntries() {
  const demo = useDemoYard((state) => state.demo);
  const people = useYard((state) => state.people);
  if (demo?.state !== 'open') return null;
  return (
    <section className="demo-entries" aria-labelledby="demo-entries-title">
      <h2 id="demo-entries-title" className="kerf-rule">
        {say('demo.entries')}
      </h2>
      <ul>
        {demo.facts?.entries.map(({ name, passphrase }) => {
          const person = people.find((one) => one.name === name);
          return (
            <li key={name}>
              <WorkAction isDisabled={!person} work={async () => person && signIn(person.id, passphrase)}>
                {say('demo.enter', { person: personText(name) })}
              </WorkAction>
              <span>
                {say('demo.passphrase')} <code>{passphrase}</code>
              </span>
            </li>
          );
        })}
      </ul>
      <p className="soft">{say('demo.worth-a-look')}</p>
    </section>
  );
}
