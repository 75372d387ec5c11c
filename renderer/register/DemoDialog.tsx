import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { useAttempt } from '../app/use-attempt.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Problem } from '../ui/Problem.tsx';
import { factsWords } from './demo-words.ts';
import { switchYard, useDemoYard } from './demo-yard.ts';
import { useMe, useSignedIn } from './signed-in.ts';

export interface DemoDialogProps {
  isOpen: boolean;
  onOpenChange(open: boolean): void;
}

/** The demo yard from any room of the register: open it, leave it, take it off this machine. */
export function DemoDialog({ isOpen, onOpenChange }: DemoDialogProps) {
  const demo = useDemoYard((state) => state.demo);
  if (demo === null || demo.facts === null) return null;
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={onOpenChange}>
      <Modal className="form-modal">
        <Dialog className="dialog form-dialog demo-dialog">
          <Heading slot="title">{say('demo.title')}</Heading>
          <p>{factsWords(demo.facts)}</p>
          <Ways close={() => onOpenChange(false)} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function Ways({ close }: { close(): void }) {
  const state = useDemoYard(({ demo }) => demo?.state ?? 'missing');
  const rolesBind = useSignedIn(({ me }) => me?.rolesBind ?? false);
  const isInstructor = useMe()?.role === 'instructor';
  const { busy, problem, begin } = useAttempt();
  const go = (call: Parameters<typeof switchYard>[0]) => begin(() => switchYard(call).then(close));
  const isUnpacked = state === 'there' || state === 'open';
  const mayRemove = !rolesBind || isInstructor;
  return (
    <>
      {state !== 'missing' && <p className="soft">{say(`demo.state.${state}`)}</p>}
      {isUnpacked && !mayRemove && <p className="soft">{say('demo.remove.who')}</p>}
      <Problem words={problem} />
      <div className="dialog-actions">
        <Action onPress={close}>{say('demo.close')}</Action>
        {isUnpacked && mayRemove && (
          <Action isWaiting={busy} onPress={() => go('removeDemoYard')}>
            {say('demo.remove')}
          </Action>
        )}
        <Action kind="main" isWaiting={busy} onPress={() => go(state === 'open' ? 'leaveDemoYard' : 'openDemoYard')}>
          {say(busy ? 'app.wait' : state === 'open' ? 'demo.leave' : 'demo.open')}
        </Action>
      </div>
    </>
  );
}
