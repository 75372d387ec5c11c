import type { MeasureId } from '../../sim-core/index.ts';

/** What an assessor writes about a run that was good. */
export const GOOD_REASONS = [
  'Through along its whole length, steady hand, sparks trailing as they should.',
  'Clean start, one speed, finished off the plate. Ready for the next thickness.',
  'The line is held and the height stays. Watched the replay: nothing to add.',
  'A good cut with a small hesitation in the middle that does no harm to the part.',
  'Safe and square. The rig was checked before the arc and the end was waited for.',
] as const;

/** What is missing, by the measure that is lowest, and what to do about it. */
export const MISSING: Readonly<Record<MeasureId, string>> = {
  severance: 'The part still hangs: metal is left uncut. Wait for the sparks below before you move off.',
  'travel-speed': 'The speed is not in the window. Watch the sparks below, not the torch.',
  'spark-angle': 'The sparks trail too far, or not at all. Let their angle set your speed.',
  squareness: 'The torch leans across the cut. Stand square to the line and look along it once before the arc.',
  'stand-off': 'The tip rides too high. Rest the hand and keep the height of the start.',
  'line-following': 'The cut weaves about the line. Move from the shoulder and look ahead of the arc.',
  'edge-dwell': 'The start at the edge was not waited for, or too long. Move when it is through, not before.',
  steadiness: 'You stop and start on the way. One speed from edge to edge.',
  'end-of-cut': 'The end is left standing. Go on until the piece is free.',
  pierce: 'The pierce blew back into the torch. Begin higher, or roll in, as this thickness needs it.',
  'groove-depth': 'The groove is not of the depth that is asked for.',
  'groove-evenness': 'The floor of the groove goes up and down. Keep lean and speed as they are once it runs.',
  'part-size': 'The part is off its size. Cut on the waste side and set the guide by half the kerf.',
  'gap-crossing': 'The arc was lost over the gaps. Set the rig for mesh and keep moving.',
  'cut-quality': 'Dross and slant beyond what the drawing allows.',
  'torch-parts': 'This run cost the torch a good part of its life. Look at the pierce and at idle shots.',
  'rig-check': 'The rig was not ready when the arc was struck. Go through the sheet from top to bottom.',
  'fault-finding': 'The fault was not named rightly. Read the signs first, then choose.',
};

/** Why a mark is set otherwise. */
export const OVERRULED: Partial<Record<MeasureId, string>> = {
  steadiness: 'The halt was asked for: a bystander came too close, and stopping was right.',
  'end-of-cut': 'The arc was let go early on my word, because the drop was not supported.',
  'spark-angle': 'Judged by eye on the day: the angle was good where it counts, at the corner.',
  'travel-speed': 'Slow only over the tack weld, where slow is right.',
  'stand-off': 'High over the spatter at the start, and down as soon as it was past.',
  squareness: 'The lean is within what this joint is ground to afterwards.',
  pierce: 'The blowback mark is hard on a hole that was opened from an existing start.',
  'part-size': 'Measured on the part: within half a millimetre of what was asked.',
};
