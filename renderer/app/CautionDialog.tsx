import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { useYard } from './yard-store.ts';

const LINES = ['start.supervised', 'start.manual', 'start.electric', 'start.screen'] as const;

/** Once in each sitting, before anything else: what this is not. */
export function CautionDialog() {
  const read = useYard((state) => state.cautionRead);
  return (
    <ModalOverlay className="veil" isOpen={!read} isDismissable={false} isKeyboardDismissDisabled>
      <Modal>
        <Dialog className="dialog caution-dialog" role="alertdialog">
          <Heading slot="title" level={2} className="kerf-rule">
            {say('start.title')}
          </Heading>
          <p className="caution-lead">{say('start.lead')}</p>
          <ul className="caution-lines">
            {LINES.map((key) => (
              <li key={key}>{say(key)}</li>
            ))}
          </ul>
          <Action kind="main" autoFocus onPress={() => useYard.setState({ cautionRead: true })}>
            {say('start.go')}
          </Action>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
