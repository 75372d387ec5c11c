import { useState } from 'react';
import { Input, Label, NumberField, TextField } from 'react-aria-components';
import { FormDialog } from '../register/FormDialog.tsx';
import { say } from '../text/say.ts';
import { callHost } from './host-client.ts';
import { useYard } from './yard-store.ts';

const LONGEST_MINUTES = 480;

/** What holds for the whole yard: its name on papers, and when staff are signed out. Nothing is changed before it is kept. */
export function YardSettingsDialog({ isOpen, onOpenChange }: { isOpen: boolean; onOpenChange(open: boolean): void }) {
  const settings = useYard((state) => state.settings);
  const [yardName, setYardName] = useState(settings.yardName);
  const [minutes, setMinutes] = useState(settings.idleSignOutMinutes);
  return (
    <FormDialog
      title={say('yard-settings.title')}
      isOpen={isOpen}
      onOpenChange={onOpenChange}
      leave={say('yard-settings.leave')}
      keep={say('yard-settings.keep')}
      ready={yardName.trim() !== '' && !Number.isNaN(minutes)}
      onKeep={async () => {
        const kept = await callHost('setSettings', { yardName: yardName.trim(), idleSignOutMinutes: minutes });
        useYard.setState({ settings: kept });
      }}
    >
      <TextField className="entry" value={yardName} onChange={setYardName} maxLength={80} autoFocus>
        <Label>{say('yard-settings.name')}</Label>
        <Input className="price-input" />
      </TextField>
      <NumberField
        className="entry"
        value={minutes}
        onChange={setMinutes}
        minValue={1}
        maxValue={LONGEST_MINUTES}
        step={1}
        formatOptions={{ maximumFractionDigits: 0 }}
      >
        <Label>{say('yard-settings.idle')}</Label>
        <Input className="price-input" />
      </NumberField>
    </FormDialog>
  );
}
