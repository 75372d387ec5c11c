import { Dialog, Heading, Modal, ModalOverlay, Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import type { HandSettings } from '../../electron/contract.ts';
import { goTo } from '../app/route.ts';
import { changeSettings, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { placeNow, scaleOf } from './hand-scale.ts';
import { KeyTable } from './KeyTable.tsx';
import { PadTable } from './PadTable.tsx';
import { PenChoices } from './PenChoices.tsx';

const TABS = ['scale', 'keys', 'pad', 'pen'] as const;
const LEANERS = ['none', 'mouse', 'keyboard', 'gamepad', 'pen'] as const;

/** How the devices move the torch: scale of the hand, who leans, what keys and buttons do, the pen. Everything holds from the next run on. */
export function ControlsDialog({ isOpen, onOpenChange }: { isOpen: boolean; onOpenChange(open: boolean): void }) {
  const hand = useYard((state) => state.settings.hand);
  const change = (part: Partial<HandSettings>) => void changeSettings({ hand: { ...useYard.getState().settings.hand, ...part } });
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={onOpenChange}>
      <Modal className="wide-modal">
        <Dialog className="dialog controls-dialog">
          {({ close }) => (
            <>
              <Heading slot="title" level={2} className="kerf-rule">
                {say('controls.title')}
              </Heading>
              <Tabs className="controls-tabs">
                <TabList className="tab-row" aria-label={say('controls.title')}>
                  {TABS.map((id) => (
                    <Tab key={id} id={id} className="tab">
                      {say(`controls.${id}`)}
                    </Tab>
                  ))}
                </TabList>
                <TabPanel id="scale" className="tab-panel controls-panel">
                  <HandScaleChoices hand={hand} onChange={change} onMeasure={close} />
                </TabPanel>
                <TabPanel id="keys" className="tab-panel controls-panel">
                  <KeyTable hand={hand} onChange={change} />
                </TabPanel>
                <TabPanel id="pad" className="tab-panel controls-panel">
                  <PadTable hand={hand} onChange={change} />
                </TabPanel>
                <TabPanel id="pen" className="tab-panel controls-panel">
                  <PenChoices hand={hand} onChange={change} />
                </TabPanel>
              </Tabs>
              <div className="dialog-actions">
                <Action kind="main" onPress={close}>
                  {say('bench.close')}
                </Action>
              </div>
            </>
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

export interface HandChoicesProps {
  hand: HandSettings;
  onChange(part: Partial<HandSettings>): void;
}

function HandScaleChoices({ hand, onChange, onMeasure }: HandChoicesProps & { onMeasure(): void }) {
  const personId = useYard((state) => state.chosenId);
  const known = (['mouse', 'pen'] as const).some((device) => scaleOf(hand, personId, device, placeNow()) !== null);
  return (
    <>
      <p>{say(known ? 'controls.scale.known' : 'controls.scale.unknown')}</p>
      <div>
        <Action
          onPress={() => {
            onMeasure();
            goTo({ at: 'hand' });
          }}
        >
          {say('controls.scale.measure')}
        </Action>
      </div>
      <Tick
        label={say('controls.scale.use')}
        isDisabled={!known}
        isSelected={hand.oneToOne}
        onChange={(oneToOne) => onChange({ oneToOne })}
      />
      <Pick<HandSettings['leansWith']>
        label={say('controls.two-hands')}
        value={hand.leansWith}
        options={LEANERS.map((value) => ({ value, label: say(`controls.two-hands.${value}`) }))}
        onChange={(leansWith) => onChange({ leansWith })}
      />
      <p className="soft small">{say('controls.two-hands.say')}</p>
    </>
  );
}
