import { WorkAction } from '../app/WorkAction.tsx';
import { say } from '../text/say.ts';
import { switchYard, useDemoYard } from './demo-yard.ts';

/** Above every room while the demo yard is open: what it is, and the way out. */
export function DemoMark() {
  const isOpen = useDemoYard(({ demo }) => demo?.state === 'open');
  if (!isOpen) return null;
  return (
    <aside className="demo-mark" aria-label={say('demo.mark')}>
      <p>
        <strong>{say('demo.mark')}</strong> {say('demo.mark.about')}
      </p>
      <WorkAction work={() => switchYard('leaveDemoYard')}>{say('demo.leave')}</WorkAction>
    </aside>
  );
}
