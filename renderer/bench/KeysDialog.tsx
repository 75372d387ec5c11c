import { useState } from 'react';
import { Dialog, DialogTrigger, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { ControlsDialog } from '../input/ControlsDialog.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { KeysTable } from './KeysTable.tsx';

/** Every control of the bench, by device. Opening it holds the bench. */
export function KeysDialog({ onOpen }: { onOpen(): void }) {
  const [changing, setChanging] = useState(false);
  return (
    <>
      <DialogTrigger onOpenChange={(open) => open && onOpen()}>
        <Action kind="quiet">{say('bench.keys')}</Action>
        <ModalOverlay className="veil" isDismissable>
          <Modal>
            <Dialog className="dialog">
              {({ close }) => (
                <>
                  <Heading slot="title" level={2} className="kerf-rule">
                    {say('keys.title')}
                  </Heading>
                  <KeysTable />
                  <p className="soft small">{say('keys.tab')}</p>
                  <div className="dialog-actions">
                    <Action
                      onPress={() => {
                        close();
                        setChanging(true);
                      }}
                    >
                      {say('keys.change')}
                    </Action>
                    <Action kind="main" onPress={close}>
                      {say('bench.close')}
                    </Action>
                  </div>
                </>
              )}
            </Dialog>
          </Modal>
        </ModalOverlay>
      </DialogTrigger>
      <ControlsDialog isOpen={changing} onOpenChange={setChanging} />
    </>
  );
}
