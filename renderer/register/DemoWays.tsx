import { useState } from 'react';
import { WorkAction } from '../app/WorkAction.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { factsWords } from './demo-words.ts';
import { switchYard, useDemoYard } from './demo-yard.ts';
import { FirstInstructorDialog } from './FirstInstructorDialog.tsx';

/** On the first page of a yard in which nobody is yet: begin it, or look round one that is in full swing. */
export function DemoWays() {
  const demo = useDemoYard((state) => state.demo);
  const [making, setMaking] = useState(false);
  if (demo === null || demo.facts === null || demo.state === 'open') return null;
  return (
    <section className="first-ways" aria-labelledby="first-ways-title">
      <h2 id="first-ways-title" className="kerf-rule">
        {say('demo.first')}
      </h2>
      <div className="first-way">
        <h3>{say('demo.own')}</h3>
        <p>{say('demo.own.about')}</p>
        <Action onPress={() => setMaking(true)}>{say('demo.own')}</Action>
        <FirstInstructorDialog isOpen={making} onOpenChange={setMaking} />
      </div>
      <div className="first-way">
        <h3>{say('demo.look')}</h3>
        <p>{factsWords(demo.facts)}</p>
        <div className="first-way-actions">
          <OpenDemo />
          {demo.state === 'there' && <RemoveDemo />}
        </div>
      </div>
    </section>
  );
}

export function OpenDemo() {
  return (
    <WorkAction work={() => switchYard('openDemoYard')} meanwhile={say('demo.opening')}>
      {say('demo.open')}
    </WorkAction>
  );
}

/** Nothing in it is real: it goes without a question, and can be had back at once. */
export function RemoveDemo() {
  return (
    <WorkAction kind="quiet" work={() => switchYard('removeDemoYard')}>
      {say('demo.remove')}
    </WorkAction>
  );
}
