import { say } from '../text/say.ts';

/** As PASSPHRASE_LEAST of the contract: the host holds it. */
export const LEAST_CHARACTERS = 8;

export interface NewPassphrase {
  passphrase: string;
  again: string;
}

export const NO_PASSPHRASE: NewPassphrase = { passphrase: '', again: '' };

/** What is wrong with a new passphrase, told only where something was typed; `good` where nothing is. */
export function checkNewPassphrase({ passphrase, again }: NewPassphrase) {
  const short = passphrase.length < LEAST_CHARACTERS;
  return {
    short: short && passphrase !== '' ? say('first.short', { least: LEAST_CHARACTERS }) : null,
    differs: again !== '' && again !== passphrase ? say('first.differs') : null,
    good: !short && passphrase === again,
  };
}
