import { RAD_PER_DEG, tan } from '../math/elementary.ts';
import { advanceArc, PILOT, TRANSFERRED } from '../physics/arc.ts';
import { createEjecta, followEjecta } from '../physics/ejecta.ts';
import { doubleArcShare, followDoubleArc, wearTorch } from '../physics/follow-torch.ts';
import { stepHeat } from '../physics/heat-window.ts';
import { applyJet, clearOutcome, type JetPose, jetParts, lookAlongJet } from '../physics/jet.ts';
import { followHand, tellHeading, tellTravelAngle, tellWorkAngle } from '../physics/kinematics.ts';
import { goneAt, TILE_CELLS } from '../physics/metal-field.ts';
import { MODEL } from '../physics/model-constants.ts';
import { dropLoosePieces } from '../physics/pieces.ts';
import { closeSevered, followSevered } from '../physics/severed-path.ts';
import { readSparkFront, tellSparkAngle } from '../physics/spark-front.ts';
import { lookAhead } from '../physics/surroundings.ts';
import { aimArc } from '../physics/torch-luck.ts';
import { tellSpentLife } from '../physics/wear.ts';
import { type Digest, digestBytes, digestHex, digestWord } from './digest.ts';
import { columnUnder, gridOf, isOpen, readTile } from './field-view.ts';
import { ownSetup } from './own-setup.ts';
import { createSample } from './samples.ts';
import { createSimulationState, type SimulationState, touchHeat, touchMetal } from './simulation-state.ts';
import { putSnapshot, refreshTiles, type Snapshot, snapshotBytes, snapshotFromBytes, takeSnapshot } from './snapshot.ts';
import { encodeHead } from './state-head.ts';
import { markAll, unmarkAll } from './tile-marks.ts';
import { createTileStore, type TileStore, tileBytes } from './tile-store.ts';
import { type HandTick, type Simulation, type SimulationSetup, TICK_HZ } from './types.ts';

const TICK_S = 1 / TICK_HZ;
/** Metal leaving the underside, mm3/s, under which there is no stream to read an angle from. Design default. */
const LEAST_STREAM_MM3_PER_S = 2;
/** Ticks between readings of the front's slope. */
const SPARK_TICKS = 2;
/** Ticks between looks for loose pieces while the arc is on. */
const LOOSE_LOOK_TICKS = 2 * TICK_HZ;

/** A simulation with keyframes: what replays are made of. */
export interface KeyedSimulation extends Simulation {
  snapshot(): Snapshot;
  putBack(snapshot: Snapshot): void;
}

/** Makes a plate and a rig at rest. Throws RangeError with one sentence where the setup cannot be used. */
export function createSimulation(setup: SimulationSetup): KeyedSimulation {
  const state = createSimulationState(ownSetup(setup));
  const store = createTileStore(2 * state.metal.tilesX * state.metal.tilesY);
  const sample = createSample();
  const ejecta = createEjecta();
  const pose: JetPose = { xMm: 0, yMm: 0, heightMm: 0, leanTanX: 0, leanTanY: 0, headingX: 1, headingY: 0 };
  const grid = gridOf(state);
  const { motion, arc, jet, metal, totals, ledger, front, torch, ahead } = state;
  const clampColumn = columnUnder(state, state.setup.fit.clamp);
  // Numbers go from function to function in records: as arguments they would be allocated, tick by tick.
  const span = { lengthMm: 0, metShare: 0, openAround: 0, returns: true };
  const torchTick = {
    heightMm: 0,
    currentA: setup.currentA,
    arcVoltageLimitV: state.source.rig.arcVoltageLimitV + state.torch.fitness.headroomV,
    blowbackJ: 0,
  };
  const foot = { xMm: 0, yMm: 0, leanTanX: 0, leanTanY: 0 };
  const lag = lagMm(state);
  /** Power that arrives per volt of arc, W. */
  const arcPowerW = MODEL.arcEfficiency * state.torch.fitness.powerShare * setup.currentA;
  const parts = jetParts(setup.currentA, jet.jetRadiusMm, setup.thicknessMm, state.table.thrownJPerMm3, TICK_S);
  // A thin or easily melted front lives for less than a tick, so it is read in every part of one.
  const everyPart = parts > 2 || setup.thicknessMm < 4;
  const stageS = MODEL.sparkFilterS / 3;
  const keepSpark = 1 - (everyPart ? TICK_S / parts : SPARK_TICKS * TICK_S) / stageS;
  const keepDrift = TICK_S / MODEL.driftS;
  const keepStream = 1 - TICK_S / stageS;
  const open = (xMm: number, yMm: number, leanTanX: number, leanTanY: number): boolean =>
    isOpen(state, xMm, yMm, leanTanX, leanTanY);

  function step(input: HandTick): void {
    totals.tick++;
    const fromX = motion.xMm;
    const fromY = motion.yMm;
    const fromHeight = motion.heightMm;
    const fromTanX = motion.leanTanX;
    const fromTanY = motion.leanTanY;
    followHand(motion, state.trail, input);
    if (totals.tick > 1) {
      ahead.driftX += keepDrift * ((motion.xMm - fromX) * TICK_HZ - ahead.driftX);
      ahead.driftY += keepDrift * ((motion.yMm - fromY) * TICK_HZ - ahead.driftY);
    }
    aimArc(torch.luck, torch.fitness);
    takePose();
    const lengthening = Math.sqrt(1 + pose.leanTanX * pose.leanTanX + pose.leanTanY * pose.leanTanY);
    const before = arc.phase;
    if (before === PILOT) lookForMetal();
    span.lengthMm = pose.heightMm * lengthening + totals.meanDepthMm * (1 + MODEL.reachBack * ahead.open);
    span.metShare = totals.metShare;
    span.openAround = totals.openAround;
    span.returns = torch.fitness.returns && !clampHasFallen();
    advanceArc(arc, state.source, torch.luck, input.trigger === 1, span);
    followDoubleArc(torch, arc, motion.heightMm);
    const burning = arc.phase === TRANSFERRED;
    if (burning) {
      jet.burst.powerW = arcPowerW * arc.voltageV * (1 - doubleArcShare(torch.luck));
      jet.burst.stepS = TICK_S / parts;
      const { outcome } = jet;
      clearOutcome(outcome);
      const offX = torch.luck.offX;
      const offY = torch.luck.offY;
      for (let part = 1; part <= parts; part++) {
        // The last part ends where the hand is now; the parts before lie between there and where it was.
        const back = before === TRANSFERRED ? (parts - part) / parts : 0;
        pose.xMm = motion.xMm + back * (fromX - motion.xMm);
        pose.yMm = motion.yMm + back * (fromY - motion.yMm);
        pose.heightMm = motion.heightMm + back * (fromHeight - motion.heightMm);
        pose.leanTanX = offX + motion.leanTanX + back * (fromTanX - motion.leanTanX);
        pose.leanTanY = offY + motion.leanTanY + back * (fromTanY - motion.leanTanY);
        jet.burst.openShare = 1 - totals.metShare;
        jet.burst.blindShare = totals.blindShare;
        applyJet(jet, metal, state.heat, state.table, pose, state.fallen.length > 0);
        totals.meanDepthMm = outcome.meanDepthMm;
        totals.metShare = outcome.metShare;
        totals.blindShare = 1 - outcome.underShare;
        totals.openAround = outcome.openAround;
        if (front.streamMm3PerS <= LEAST_STREAM_MM3_PER_S) front.known = 0;
        else if (everyPart || (part === parts && totals.tick % SPARK_TICKS === 0))
          readSparkFront(front, jet, metal, pose, keepSpark);
      }
      lookAhead(ahead, jet, metal);
      ledger.deliveredJ += outcome.deliveredJ;
      ledger.throughJ += outcome.throughJ + outcome.glancedJ;
      ledger.conductedJ += outcome.conductedJ;
      ledger.removedJ += outcome.removedJ;
      touchUnder(state, pose);
      foot.xMm = pose.xMm - pose.leanTanX * pose.heightMm;
      foot.yMm = pose.yMm - pose.leanTanY * pose.heightMm;
      foot.leanTanX = pose.leanTanX;
      foot.leanTanY = pose.leanTanY;
      followSevered(state.severed, foot, lag, open);
    } else {
      clearOutcome(jet.outcome);
      if (before === TRANSFERRED) closeSevered(state.severed, open);
    }
    heatAfter(burning);
    if (before === TRANSFERRED && (!burning || totals.tick % LOOSE_LOOK_TICKS === 0)) dropLoosePieces(state);
    front.streamMm3PerS = burning ? keepStream * front.streamMm3PerS + (1 - keepStream) * (jet.outcome.underMm3 / TICK_S) : 0;
    if (!burning) front.known = 0;
    tellAngle();
    followEjecta(ejecta, jet.outcome, pose, sample, setup.thicknessMm, TICK_S);
    if (burning) totals.blowbackMj += ejecta.blowbackMj;
    torchTick.heightMm = motion.heightMm;
    torchTick.blowbackJ = burning ? ejecta.blowbackMj / 1000 : 0;
    wearTorch(torch, arc, torchTick);
    fillSample(burning);
    if (totals.tick % TICK_HZ === 0) roll();
  }

  /** True once the piece under the return clamp has come away. */
  function clampHasFallen(): boolean {
    return clampColumn >= 0 && state.fallen.length > 0 && metal.pieceOf[clampColumn]! > 0;
  }

  /** The jet's pose is the hand's, but for an arc that wanders or leans. */
  function takePose(): void {
    pose.xMm = motion.xMm;
    pose.yMm = motion.yMm;
    pose.heightMm = motion.heightMm;
    pose.leanTanX = motion.leanTanX + torch.luck.offX;
    pose.leanTanY = motion.leanTanY + torch.luck.offY;
    pose.headingX = motion.headingX;
    pose.headingY = motion.headingY;
  }

  /** Before the arc decides: what a jet without power would meet from this pose. Only the pilot needs it; a burning arc knows. */
  function lookForMetal(): void {
    jet.burst.openShare = 0;
    jet.burst.blindShare = 0;
    lookAlongJet(jet, metal, pose, state.fallen.length > 0);
    totals.meanDepthMm = jet.outcome.meanDepthMm;
    totals.metShare = jet.outcome.metShare;
    totals.blindShare = 1 - jet.outcome.underShare;
    totals.openAround = jet.outcome.openAround;
  }

  function heatAfter(burning: boolean): void {
    const { window } = state;
    if (totals.tick % window.strideTicks !== 0) return;
    const tileMm = TILE_CELLS * metal.cellMm;
    const tileX = ((pose.xMm - metal.x0Mm) / tileMm) | 0;
    const tileY = ((pose.yMm - metal.y0Mm) / tileMm) | 0;
    const inside = pose.xMm > metal.x0Mm && pose.yMm > metal.y0Mm && tileX < metal.tilesX && tileY < metal.tilesY;
    const { cursor } = window;
    const { tileX: lastX, tileY: lastY } = cursor;
    stepHeat(window, state.heat, state.table, totals.tick, tileX, tileY, burning && inside);
    if (cursor.count === 0) return;
    // Heat crosses the rim of the nine tiles; when they move on, the tiles around them level out with theirs as well.
    const reach = cursor.tileX === lastX && cursor.tileY === lastY ? 2 : 3;
    for (let ty = cursor.tileY - reach; ty <= cursor.tileY + reach; ty++) {
      for (let tx = cursor.tileX - reach; tx <= cursor.tileX + reach; tx++) touchHeat(state, tx, ty);
    }
    for (const visited of window.visited) {
      if (visited < 0) continue;
      const ty = (visited / metal.tilesX) | 0;
      const tx = visited - ty * metal.tilesX;
      touchHeat(state, tx, ty);
      touchHeat(state, tx - 1, ty);
      touchHeat(state, tx + 1, ty);
      touchHeat(state, tx, ty - 1);
      touchHeat(state, tx, ty + 1);
    }
  }

  /** Everything but the spark angle, which is known before. */
  function fillSample(burning: boolean): void {
    const { outcome } = jet;
    sample.xMm = pose.xMm;
    sample.yMm = pose.yMm;
    sample.standOffMm = pose.heightMm;
    sample.speedMmPerS = motion.speedMmPerS;
    tellHeading(motion, sample);
    tellTravelAngle(motion, sample);
    tellWorkAngle(motion, sample);
    sample.arcState = arc.phase;
    sample.arcVoltageV = burning ? arc.voltageV : 0 / 0;
    sample.underMm3PerS = outcome.underMm3 / TICK_S;
    sample.topMm3PerS = outcome.topMm3 / TICK_S;
    sample.throughFraction = burning && outcome.deliveredJ > 0 ? outcome.throughJ / outcome.deliveredJ : 0;
    sample.blowbackMj = totals.blowbackMj;
    sample.severedMm = state.severed.marks.severedMm;
    sample.penetration = burning ? outcome.penetration : 0;
    sample.meanDepthMm = burning ? outcome.meanDepthMm : 0;
    sample.conductedW = outcome.conductedJ / TICK_S;
    sample.doubleArcShare = burning ? doubleArcShare(torch.luck) : 0;
    sample.arcLeanDeg = burning ? torch.luck.offDeg : 0;
    tellSpentLife(torch.wear, sample);
    sample.restrikes = arc.restrikes;
  }

  /** At a full second, everything that changed in it goes into the rolling digest. */
  function roll(): void {
    absorb(state.rolling, state, store);
    unmarkAll(state.sinceSecond);
  }

  sample.sparkAngleDeg = 0 / 0;
  fillSample(false);
  return {
    setup: state.setup,
    get tick() {
      return totals.tick;
    },
    sample,
    ejecta,
    ledger,
    fallen: state.fallen,
    wear: state.torch.wear,
    usage: state.torch.usage,
    grid,
    step,
    digest() {
      const now = { a: state.rolling.a, b: state.rolling.b };
      absorb(now, state, store);
      return digestHex(now);
    },
    snapshot: () => takeSnapshot(state, store),
    putBack(snapshot) {
      putSnapshot(state, store, snapshot);
      afterRestore();
    },
    save: () => snapshotBytes(state, takeSnapshot(state, store)),
    restore(bytes) {
      const snapshot = snapshotFromBytes(state, bytes);
      const held = takeSnapshot(state, store);
      try {
        putSnapshot(state, store, snapshot);
      } catch (error) {
        // Half a state is worse than none: go back to what was.
        markAll(state.stale);
        putSnapshot(state, store, held);
        throw error;
      }
      afterRestore();
    },
    takeChangedTiles() {
      const { size, list } = state.forView;
      const tiles = Array.from(list.subarray(0, size.count)).sort((a, b) => a - b);
      unmarkAll(state.forView);
      return tiles;
    },
    readTile: (tile, out) => readTile(state, tile, out),
    heldJ() {
      let sum = 0;
      for (let cell = 0; cell < state.heat.heatJ.length; cell++) sum += state.heat.heatJ[cell]!;
      return sum;
    },
    goneAt: (xMm, yMm, depthMm) => goneAt(metal, xMm, yMm, depthMm, true),
    cutAt: (xMm, yMm, depthMm) => goneAt(metal, xMm, yMm, depthMm, false),
    isOpenAlongAxis: (xMm, yMm, leanXDeg, leanYDeg) =>
      isOpen(state, xMm, yMm, tan(leanXDeg * RAD_PER_DEG), tan(leanYDeg * RAD_PER_DEG)),
  };

  /** The sample is not state: it is told again from it, without what only the passing tick knew. */
  function afterRestore(): void {
    takePose();
    const burning = arc.phase === TRANSFERRED;
    clearOutcome(jet.outcome);
    ejecta.underRateMm3PerS = 0;
    ejecta.topRateMm3PerS = 0;
    tellAngle();
    fillSample(burning);
  }

  function tellAngle(): void {
    if (front.streamMm3PerS > LEAST_STREAM_MM3_PER_S) tellSparkAngle(front, sample);
    else sample.sparkAngleDeg = 0 / 0;
  }
}

/** Takes the small parts, and the tiles that changed since the last full second, into a digest. */
function absorb(digest: Digest, state: SimulationState, store: TileStore): void {
  const { size, list } = state.sinceSecond;
  refreshTiles(state, store);
  digestBytes(digest, encodeHead(state));
  for (let i = 0; i < size.count; i++) {
    digestWord(digest, list[i]!);
    const chunk = tileBytes(store.pages, list[i]!);
    if (chunk) digestBytes(digest, chunk);
  }
}

/** Marks every tile that the jet can have reached, from its foot on the top to its foot on the underside. */
function touchUnder(state: SimulationState, pose: JetPose): void {
  const { metal, jet } = state;
  const deep = state.setup.thicknessMm;
  const lengthening = Math.sqrt(1 + pose.leanTanX * pose.leanTanX + pose.leanTanY * pose.leanTanY);
  const radius = (jet.jetRadiusMm + MODEL.jetSpread * (pose.heightMm + deep) * lengthening) * lengthening * 1.5 + 1;
  const topX = pose.xMm - pose.leanTanX * pose.heightMm - metal.x0Mm;
  const topY = pose.yMm - pose.leanTanY * pose.heightMm - metal.y0Mm;
  const lowX = topX - pose.leanTanX * deep;
  const lowY = topY - pose.leanTanY * deep;
  const tileMm = TILE_CELLS * metal.cellMm;
  const x0 = (((topX < lowX ? topX : lowX) - radius) / tileMm) | 0;
  const x1 = (((topX > lowX ? topX : lowX) + radius) / tileMm) | 0;
  const y0 = (((topY < lowY ? topY : lowY) - radius) / tileMm) | 0;
  const y1 = (((topY > lowY ? topY : lowY) + radius) / tileMm) | 0;
  for (let ty = y0; ty <= y1; ty++) for (let tx = x0; tx <= x1; tx++) touchMetal(state, tx, ty);
}

/** How far behind the tip the front has surely gone by, mm: the jet's width and a drag of 40 deg. */
function lagMm(state: SimulationState): number {
  return 2 * state.jet.jetRadiusMm + 0.85 * state.setup.thicknessMm;
}
