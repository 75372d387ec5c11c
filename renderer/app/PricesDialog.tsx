import { useState } from 'react';
import { Dialog, Heading, Input, Label, Modal, ModalOverlay, NumberField, TextField } from 'react-aria-components';
import type { PriceSettings } from '../../electron/contract.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { NumberInput } from '../ui/NumberInput.tsx';
import { changeSettings, useYard } from './yard-store.ts';

const PARTS = ['electrode', 'nozzle', 'shield', 'gasPerM3', 'stationPerHour'] as const;
const PLATES = ['mild-steel', 'stainless-steel', 'aluminium'] as const;
const PRICE_HIGH = 1_000_000;
const CURRENCY_LETTERS = 6;

export interface PricesDialogProps {
  isOpen: boolean;
  onOpenChange(open: boolean): void;
}

/** What parts, gas, plate and time cost. Nothing is changed before it is kept. */
export function PricesDialog({ isOpen, onOpenChange }: PricesDialogProps) {
  return (
    <ModalOverlay className="veil" isDismissable isOpen={isOpen} onOpenChange={onOpenChange}>
      <Modal>
        <Dialog className="dialog prices">{({ close }) => <PricesForm close={close} />}</Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function PricesForm({ close }: { close(): void }) {
  const kept = useYard((state) => state.settings.prices);
  const [prices, setPrices] = useState<PriceSettings>(kept);
  const currency = prices.currency.trim();
  const change = (part: Partial<PriceSettings>): void => setPrices((now) => ({ ...now, ...part }));
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (currency === '') return;
        changeSettings({ prices: { ...prices, currency } });
        close();
      }}
    >
      <Heading slot="title">{say('prices.title')}</Heading>
      <p className="soft">{say('prices.about')}</p>
      <div className="price-fields">
        <TextField
          className="price-field"
          value={prices.currency}
          onChange={(value) => change({ currency: value })}
          isRequired
          isInvalid={currency === ''}
          maxLength={CURRENCY_LETTERS}
        >
          <Label>{say('prices.currency')}</Label>
          <Input className="price-input" />
        </TextField>
        {PARTS.map((id) => (
          <PriceField key={id} label={say(`prices.${id}`)} value={prices[id]} onChange={(value) => change({ [id]: value })} />
        ))}
        {PLATES.map((id) => (
          <PriceField
            key={id}
            label={say('prices.plate', { material: say(`material.${id}`) })}
            value={prices.platePerKg[id]}
            onChange={(value) => change({ platePerKg: { ...prices.platePerKg, [id]: value } })}
          />
        ))}
      </div>
      <div className="dialog-actions">
        <Action onPress={close}>{say('prices.leave')}</Action>
        <Action kind="main" type="submit" isDisabled={currency === ''}>
          {say('prices.keep')}
        </Action>
      </div>
    </form>
  );
}

function PriceField({ label, value, onChange }: { label: string; value: number; onChange(value: number): void }) {
  return (
    <NumberField
      className="price-field"
      value={value}
      minValue={0}
      maxValue={PRICE_HIGH}
      formatOptions={{ minimumFractionDigits: 2, maximumFractionDigits: 2, useGrouping: false }}
      onChange={(next) => onChange(Number.isFinite(next) ? next : value)}
    >
      <Label>{label}</Label>
      <NumberInput className="price-input" />
    </NumberField>
  );
}
