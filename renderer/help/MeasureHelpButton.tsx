import { Dialog, DialogTrigger, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { MeasureId } from '../../sim-core/index.ts';
import { hashFromRoute } from '../app/route.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { MeasureHelp } from './MeasureHelp.tsx';

/** Beside a mark: what it means, without leaving the run. */
export function MeasureHelpButton({ id }: { id: MeasureId }) {
  return (
    <DialogTrigger>
      <Action kind="quiet" className="help-button" aria-label={say('help.of', { measure: say(`measure.${id}`) })}>
        ?
      </Action>
      <ModalOverlay className="veil" isDismissable>
        <Modal>
          <Dialog className="dialog help-dialog">
            {({ close }) => (
              <>
                <Heading slot="title" level={2} className="kerf-rule">
                  {say(`measure.${id}`)}
                </Heading>
                <MeasureHelp id={id} level={3} />
                <div className="dialog-actions">
                  <a className="action action-quiet" href={hashFromRoute({ at: 'help', topic: id })}>
                    {say('help.whole')}
                  </a>
                  <Action kind="main" autoFocus onPress={close}>
                    {say('bench.close')}
                  </Action>
                </div>
              </>
            )}
          </Dialog>
        </Modal>
      </ModalOverlay>
    </DialogTrigger>
  );
}
