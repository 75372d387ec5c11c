import { useEffect, useRef, useState } from 'react';
import { Dialog, DialogTrigger, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { ControlsDialog } from '../input/ControlsDialog.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { KeysTable } from './KeysTable.tsx';

export interface KeysDialogProps {
  onOpen(): void;
  /** It is gone, and so is the one for changing keys that may come after it. */
  onClosed(): void;
}

/** Every control of the bench, by device. Opening it holds the bench. */
export function KeysDialog({ onOpen, onClosed }: KeysDialogProps) {
  const [listed, setListed] = useState(false);
  const [changing, setChanging] = useState(false);
  const open = listed || changing;
  const wasOpen = useRef(false);
  useEffect(() => {
    if (wasOpen.current && !open) onClosed();
    wasOpen.current = open;
  }, [open, onClosed]);
  return (
    <>
      <DialogTrigger
        isOpen={listed}
        onOpenChange={(next) => {
          setListed(next);
          if (next) onOpen();
        }}
      >
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
