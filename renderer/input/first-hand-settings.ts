import type { HandSettings } from '../../electron/contract.ts';

/** Until the host has answered: what it would answer on a new machine. */
export const FIRST_HAND_SETTINGS: HandSettings = {
  scales: [],
  oneToOne: true,
  notAsked: [],
  keys: {},
  padButtons: {},
  padDeadZone: 0.16,
  padMoves: 'left',
  padRumble: true,
  penTrigger: 'tip',
  penPressure: 0.25,
  penTilt: 'true',
  leansWith: 'none',
};
