// npm run prove:skill: does the score measure skill? Hands of known skill do every drill, faults are put in one by one, and learners practise.
import { campaignOptions, keepEvidence } from './evidence.ts';
import { shippedDrills } from './random-run.ts';
import { recoverCurves } from './skill/learning-hands.ts';
import { nameFaults } from './skill/name-faults.ts';
import { rankDrills } from './skill/rank-drills.ts';
import { syntheticHands } from './skill/skill-vector.ts';

const SEED = 20261128;
const HANDS = 200;
const LEAST_RHO = 0.95;
const LEAST_ICC = 0.9;
const LEAST_NAMED = 0.95;
/** Quick to cut, and asking for nearly every skill. */
const LEARNT = 'galley-panel-straight-3';
const QUICK = ['galley-panel-straight-3', 'drain-grating-mesh-4'];
const QUICK_HANDS = 16;

const options = campaignOptions(90);
const until = Date.now() + options.minutes * 60_000;
const shipped = shippedDrills().map(({ drill }) => drill);
const chosen = options.quick ? shipped.filter(({ id }) => QUICK.includes(id)) : shipped;
// Where a fault is to be found, it is what is named that is scored, and hardly the hand.
const ofHands = chosen.filter(({ faults }) => faults.length === 0);

const named = nameFaults(chosen);
const curves = shipped.filter(({ id }) => id === LEARNT).flatMap((drill) => (options.quick ? [] : recoverCurves(drill)));
const hands = syntheticHands(options.quick ? QUICK_HANDS : HANDS, SEED);
const ranked = rankDrills(ofHands, hands, SEED, () => Date.now() < until);

const done = Math.min(...ranked.map((drill) => drill.hands));
const lowest = Math.min(...ranked.map(({ rho }) => rho));
const rhosOfOthers = ranked.flatMap(({ rhoOfOthers }) => rhoOfOthers ?? []);
const lowestRhoOfOthers = rhosOfOthers.length > 0 ? Math.min(...rhosOfOthers) : null;
const short = ranked.filter(({ rho }) => rho < LEAST_RHO).map(({ drillId }) => drillId);
const unsteady = ranked.filter(({ icc21 }) => icc21 === null || icc21 < LEAST_ICC).map(({ drillId }) => drillId);
const lost = curves.filter(({ offMarks, allowedMarks }) => offMarks > allowedMarks).length;
const namedShare = named.named / named.injected;
keepEvidence(
  {
    campaign: 'skill',
    seed: SEED,
    asked: { hands: hands.length, rhoPerDrill: LEAST_RHO, icc21PerDrill: LEAST_ICC, namedShare: LEAST_NAMED, curvesLost: 0 },
    got: {
      hands: done,
      lowestRho: lowest,
      lowestRhoOfOthers,
      short,
      unsteady,
      namedShare,
      curvesLost: lost,
      ranked,
      faults: named,
      curves,
    },
    holds: done === hands.length && short.length + unsteady.length + lost === 0 && namedShare >= LEAST_NAMED,
    notes: [
      'Skill is the mean of the eight skills of a hand, weighted by what the drill marks (tests/prove/skill/skill-vector.ts). Which measure asks for which skill was set before any score was looked at.',
      'After a first look at 40 hands on seven drills the hands, not the skill, were put right: they strike again where the arc goes out, at the end they err by as many tolerances on either side, and an error that a drill cannot show (the trigger held on over the edge, a torch too near that may be dragged, a pause left early that is shorter than a reaction) is made on its other side.',
      'Drills with a fault to be found are left out of the ranking: what is named there is scored, not the hand. The rig check is always right, the radius arm always set right.',
      "A hand varies from day to day, so that its scores cannot be the same: icc21OfHands is the agreement of what the hands themselves were on the two days; a score that tells a day's skill without fail comes about as high, and more only by chance or where it spreads weak hands wider. Every hand does every drill on two days; until core 2.4.0 every fifth did, and by which forty hands these were, the same score came to an ICC up to 0.1 apart.",
      'The weights and zero points of core 2.3.0, and since then four weights of the layout marks and those of the finish on 16 mm, of the template and of the slip covers, were chosen while looking at the first 81 hands; rhoOfOthers and icc21OfOthers are of the hands after them. What the hand does weighs more since then than what comes of it, which still decides whether a run passes. What a drawn line that is too faint is worth (core 2.6.0) was changed after a look at all 200 hands: marks for handling fell to nothing with a depth that hung on a few degrees and tenths of a millimetre.',
      'Two faults of the campaign itself lowered earlier figures: a hand whose arc went out where an outline closes began it anew, and the reference hand of a gouge held the torch at the very edge of its band.',
      'A hand whose arc goes out strikes again up to twelve times, so much farther on where it was in vain, and anew where the pilot has given up over an opening. With four times and always 2 mm back, one weak hand of the forty that then did each drill twice gave up at the edge on one of its days, and fifteen drills were under an ICC of 0.9: it was looked at before the hands were changed. icc21ButOne is the ICC without the pair that differs most.',
      'Errors, their run-to-run variation and the spread of skills are estimates, no measurement of people.',
    ],
  },
  `${done} of ${hands.length} hands on ${ranked.length} drills, lowest rank correlation ${lowest.toFixed(3)}, ${short.length} drills under ${LEAST_RHO}, ${unsteady.length} under ICC ${LEAST_ICC}; ${named.named} of ${named.injected} faults named first; ${curves.length - lost} of ${curves.length} practice curves found again`,
  options,
);
