import { useState } from 'react';
import { Dialog, DialogTrigger, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { useYard } from '../app/yard-store.ts';
import { ControlsDialog } from '../input/ControlsDialog.tsx';
import { controlWords } from '../input/control-names.ts';
import type { TextKey } from '../text/en.ts';
import { isTextKey, say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';

const ROWS = ['move', 'height', 'lean', 'trigger', 'set-speed', 'fine', 'mute', 'end'] as const;
const DEVICES = ['mouse', 'keyboard', 'gamepad', 'pen'] as const;

function cell(row: string, device: string, controls: Record<string, string>): string {
  const key = `keys.${row}.${device}`;
  const words = isTextKey(key) ? say(key, controls) : say('keys.none');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Every control of the bench, by device. Opening it holds the bench. */
export function KeysDialog({ onOpen }: { onOpen(): void }) {
  const controls = controlWords(useYard((state) => state.settings.hand));
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
                  <table className="keys-table">
                    <thead>
                      <tr>
                        <th scope="col">{say('keys.action')}</th>
                        {DEVICES.map((device) => (
                          <th key={device} scope="col">
                            {say(`keys.${device}`)}
                          </th>
                        ))}
                      </tr>
                    </thead>
                    <tbody>
                      {ROWS.map((row) => (
                        <tr key={row}>
                          <th scope="row">{say(`keys.${row}` as TextKey)}</th>
                          {DEVICES.map((device) => (
                            <td key={device}>{cell(row, device, controls)}</td>
                          ))}
                        </tr>
                      ))}
                    </tbody>
                  </table>
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
