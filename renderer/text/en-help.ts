/**
 * Words of the help: what each measure means, why it matters on real metal, how to do better; the findings that the fading of the
 * cues rests on; the keys. Where a figure of the trade has no published source it is called common practice.
 */
export const enHelp = {
  'help.title': 'Help',
  'help.open': 'Help',
  'help.measures': 'What is marked',
  'help.more': 'At the bench',
  'help.means': 'What it means',
  'help.matters': 'Why it matters on real metal',
  'help.better': 'How to do better',
  'help.picture': 'Left: as it should be. Right: as it should not.',
  'help.of': 'What is meant by: {measure}',
  'help.whole': 'All of the help',
  'help.keys': 'Keys and controls',
  'help.cautions': 'Cautions',
  'help.fading': 'Why the cues fade',
  'help.cautions.lead':
    'What hurts on real plate, with the published figure and where it stands. This is a reminder, not instruction: the people and papers named at the end decide.',

  'help.severance.means':
    'How much of the line is cut from top to bottom. Metal still holding anywhere counts as not cut, however deep the groove is.',
  'help.severance.matters':
    'A piece that hangs on has to be broken or ground off: it bends, it tears, and it falls when nobody expects it.',
  'help.severance.better':
    'Do not leave before sparks come out below. While they come, the cut goes through; the moment they fly up, stop and go back.',

  'help.travel-speed.means':
    'How fast the torch goes along the line, against the window in which this metal is cut clean at this current.',
  'help.travel-speed.matters':
    'Too fast, and the underside is left behind until the cut is lost. Too slow, and the kerf widens, the edge overheats and dross hangs on below.',
  'help.travel-speed.better':
    'Go by the sparks below, not by the clock: a little trailing is right. Walk through the whole travel once with the trigger up.',

  'help.spark-angle.means':
    'How far the stream of sparks under the plate trails behind straight down. Here 15–30° is right for most cuts (common practice; no published source).',
  'help.spark-angle.matters':
    'It is the one sign of speed that the metal gives while there is still time: it shows how far the bottom of the cut lags behind the top.',
  'help.spark-angle.better':
    'Sparks too flat: slow down. Straight down: a little faster. Keep the view under the plate in sight.',

  'help.squareness.means':
    'Whether the handle is held as the drill asks: upright for a square face, or at its bevel. Lean across the line counts as well as along it.',
  'help.squareness.matters':
    'The cut goes where the arc points. A leaning torch makes a slanted face, and a part that does not fit.',
  'help.squareness.better':
    'Rest the hand and move from the shoulder, so that the wrist need not turn. {uprightKey} or the middle button rolls the torch upright.',

  'help.stand-off.means': 'Distance from the tip to the top of the plate, while the arc is on.',
  'help.stand-off.matters':
    'Farther off, the arc spreads: wide kerf, rounded top edge, less depth. Too close, the tip touches, and the parts wear out.',
  'help.stand-off.better':
    'Brace the hand on something that slides along. Watch the ring about the tip: between the thin ones is right.',

  'help.line-following.means': 'How far the tip is beside the chalk line.',
  'help.line-following.matters':
    'The kerf is where the torch was, not where the line is. Half a kerf too far is a scrapped part. Where the cut strays well over twice the tolerance, the run does not pass, however good the rest.',
  'help.line-following.better':
    'Stand so that you see the line ahead of the torch, and look where you are going, not at the arc. A guide does it better than any hand.',

  'help.edge-dwell.means': 'How long the torch waits at the edge: until the arc is through, and no longer.',
  'help.edge-dwell.matters':
    'Left too early, the bottom corner stays uncut and the cut may be lost at once. Stayed too long, the start is burnt wide.',
  'help.edge-dwell.better': 'Hold the middle of the arc over the edge. Sparks come out below: go.',

  'help.steadiness.means': 'How even the speed is along the way, and whether the torch came to a halt.',
  'help.steadiness.matters':
    'Every halt is a notch in the face and a hot spot in the part; every jerk is a place that is not through.',
  'help.steadiness.better':
    'Find a stance from which you reach the far end. Begin slower than you think, and change nothing on the way.',

  'help.end-of-cut.means': 'How the cut ends: carried to the end, no tab left below, and the arc off in time.',
  'help.end-of-cut.matters':
    'The bottom lags behind, so at the end a tab stays where the top is through. The arc left on burns what lies behind the plate.',
  'help.end-of-cut.better': 'Ease off a little just before the end, let the underside come along, then let go.',

  'help.pierce.means':
    'Opening a hole inside the plate: the right height or lean, held until it is through, with as little as possible thrown back.',
  'help.pierce.matters':
    'Until there is a way out below, all the molten metal comes up. It plugs the tip, ruins the parts, and lands on hands and sleeves.',
  'help.pierce.better':
    'Rolling: begin leaned well over, so that it flies away from you, then roll upright in about two seconds. Move only when sparks come out below.',

  'help.groove-depth.means': 'How deep and how wide the groove is, against what the drill asks for.',
  'help.groove-depth.matters':
    'Too shallow leaves the flaw that was to come out. Too deep takes sound metal that has to be welded in again.',
  'help.groove-depth.better':
    'Lean and speed set the depth: steeper or slower is deeper. Take two light passes rather than one heavy one.',

  'help.groove-evenness.means': 'How much the depth of the groove changes from one end to the other.',
  'help.groove-evenness.matters':
    'A wavy floor hides flaws, traps slag under the next weld, and takes longer to grind than the groove took to cut.',
  'help.groove-evenness.better': 'One lean, one height, one speed. Look at the pool, and feed it at the same rate all along.',

  'help.part-size.means': 'Whether the part comes out at its size, once the width of the kerf is taken away.',
  'help.part-size.matters':
    'The kerf has a width. Cut on the middle of the line, and the part is half a kerf too small all round.',
  'help.part-size.better':
    'Keep to the scrap side. With a guide, set it by the edge of the torch’s front, and try it with the arc off.',

  'help.gap-crossing.means':
    'Whether the arc comes over holes and slots and strikes again on the far side, without a fresh start.',
  'help.gap-crossing.matters':
    'Over an opening the arc has nothing to hold on to. Every loss is a fresh start, and starts are what wears the parts.',
  'help.gap-crossing.better':
    'Set the source for openings, keep the trigger held and the tip close, and do not slow down over the hole.',

  'help.cut-quality.means': 'What the cut face looks like: how square, how rough, how much dross on its lower edge.',
  'help.cut-quality.matters':
    'A clean face is welded as it is. Dross is chipped, a slant is ground, and a rough edge begins cracks where the part is loaded.',
  'help.cut-quality.better':
    'Right speed, upright torch, right height, in this order. Little dross at high speed is hard; much at low speed comes off with a tap.',

  'help.torch-parts.means':
    'How much of the life of the electrode, the nozzle and the shield went into this run, against what the job asks for.',
  'help.torch-parts.matters':
    'Worn parts make the arc wander and the face lean, however good the hand is. They cost more than the gas.',
  'help.torch-parts.better':
    'Few starts, long cuts. Keep off the metal, pierce at the right height, let the gas run after the arc.',

  'help.rig-check.means': 'Whether the rig was fit before the arc: parts, mode, current, gas, clamp, place and person.',
  'help.rig-check.matters':
    'Most bad cuts and most accidents are decided before the trigger: a clamp on paint, water in the air, something that burns behind the plate.',
  'help.rig-check.better':
    'Same order every time. The clamp goes on clean metal of the part that stays, never on the piece that falls.',

  'help.fault-finding.means':
    'Whether you named what was wrong with the rig, and the right remedy, from what was to be seen and heard.',
  'help.fault-finding.matters':
    'Changing parts at random costs money and hides the cause. It comes back in the middle of the next job.',
  'help.fault-finding.better':
    'Try the torch, look and listen, then ask which single fault would show all of these signs. Do not touch parts with the source on.',

  'help.fading.lead':
    'The bench tells you a lot in your first attempts, then every other time, then nothing. That is on purpose: real plate tells you nothing but what the metal shows.',
  'help.fading.guidance.say':
    'Being told after every trial makes practice look good and what is kept of it worse: learning shows when nobody tells you any more.',
  'help.fading.guidance.source':
    'Salmoni, A. W., Schmidt, R. A. and Walter, C. B. (1984). Knowledge of results and motor learning: a review and critical reappraisal. Psychological Bulletin 95, 355–386.',
  'help.fading.half.say':
    'Being told after half of the trials, more at first and less later, did better in a later test without being told than after all of them.',
  'help.fading.half.source':
    'Winstein, C. J. and Schmidt, R. A. (1990). Reduced frequency of knowledge of results enhances motor skill learning. Journal of Experimental Psychology: Learning, Memory, and Cognition 16, 677–691.',
  'help.fading.again.say':
    'Found again with 46 adults over four days: of all, half and fading, fading was kept best after one day to two weeks.',
  'help.fading.again.source': 'Journal of Physical Therapy Science 31 (2019), 687–691.',
  'help.fading.summary.say': 'Being told of many trials together made practice worse and what was kept of it better.',
  'help.fading.summary.source': 'Schmidt, R. A. and others (1989), on summaries of knowledge of results.',
  'help.fading.order.say':
    'Mixed order is harder in practice and better afterwards: that is why what comes next on your page changes.',
  'help.fading.order.source':
    'Shea, J. B. and Morgan, R. L. (1979). Contextual interference effects on the acquisition, retention, and transfer of a motor skill. Journal of Experimental Psychology: Human Learning and Memory 5, 179–187.',
  'help.fading.caution.say':
    'A caution: findings from simple tasks in a laboratory do not all hold for skills as rich as this one. Judge by your own curve.',
  'help.fading.caution.source':
    'Wulf, G. and Shea, C. H. (2002). Principles derived from the study of simple skills do not generalize to complex skill learning. Psychonomic Bulletin & Review 9, 185–211.',
  'help.fading.guess':
    'The question before the marks is there for the same reason: to estimate the own error before being told is known to help.',
} as const;
