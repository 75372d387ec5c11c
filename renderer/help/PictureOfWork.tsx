import { Arc, Pair, PLATE, Plate, Sparks, Torch, Way } from './Pair.tsx';

const { top, bottom } = PLATE;
const CUT_FACE = [10, 22, 34, 46, 58, 70, 82, 94, 106, 118, 130, 142];

const pierce = (
  <Pair
    good={
      <>
        <Plate />
        <path className="pic-open" d={`M70 ${top}l14 14l12 -14z`} />
        <Torch x={72} up={8} lean={-42} />
        <Sparks x={88} y={top} deg={-124} length={38} />
      </>
    }
    bad={
      <>
        <Plate />
        <path className="pic-open" d={`M66 ${top}l9 14l9 -14z`} />
        <Torch x={75} up={8} />
        <Sparks x={68} y={top} deg={150} length={36} />
        <Sparks x={82} y={top} deg={-150} length={36} />
      </>
    }
  />
);

const grooveDepth = (
  <Pair
    good={
      <>
        <Plate />
        <path className="pic-open" d={`M60 ${top}q15 22 30 0z`} />
        <path className="pic-dash" d={`M40 ${top + 11}h70`} />
      </>
    }
    bad={
      <>
        <Plate />
        <path className="pic-open" d={`M64 ${top}q11 46 22 0z`} />
        <path className="pic-dash" d={`M40 ${top + 11}h70`} />
      </>
    }
  />
);

const grooveEvenness = (
  <Pair
    good={
      <>
        <Plate />
        <path className="pic-open" d={`M10 ${top}h130v11h-130z`} />
        <path className="pic-dash" d={`M0 ${top + 11}h150`} />
      </>
    }
    bad={
      <>
        <Plate />
        <path className="pic-open" d={`M10 ${top}h130v6q-14 18 -30 2t-32 4t-34 -2t-34 4z`} />
        <path className="pic-dash" d={`M0 ${top + 11}h150`} />
      </>
    }
  />
);

const partSize = (
  <Pair
    good={
      <>
        <rect className="pic-metal" y={16} width={150} height={100} />
        <rect className="pic-part" x={38} y={36} width={74} height={60} />
        <path className="pic-kerf" d="M34 32h82v68h-82z" />
      </>
    }
    bad={
      <>
        <rect className="pic-metal" y={16} width={150} height={100} />
        <rect className="pic-part" x={38} y={36} width={74} height={60} />
        <path className="pic-kerf" d="M42 40h66v52h-66z" />
      </>
    }
  />
);

const gapCrossing = (
  <Pair
    good={
      <>
        <Plate to={34} />
        <Plate from={58} to={88} />
        <Plate from={112} />
        <Torch x={66} />
        <Arc x={66} />
        <Sparks x={64} deg={18} />
        <Way x={80} />
      </>
    }
    bad={
      <>
        <Plate to={34} />
        <Plate from={58} to={88} />
        <Plate from={112} />
        <Torch x={66} up={16} />
        <path className="pic-dash" d={`M66 ${top - 14}v50`} />
        <Way x={80} />
      </>
    }
  />
);

const cutQuality = (
  <Pair
    good={
      <>
        <rect className="pic-face" y={36} width={150} height={60} />
        {CUT_FACE.map((x) => (
          <path key={x} className="pic-thin" d={`M${x} 38q0 34 -6 56`} />
        ))}
      </>
    }
    bad={
      <>
        <rect className="pic-face" y={36} width={150} height={60} />
        {CUT_FACE.map((x) => (
          <path key={x} className="pic-thin" d={`M${x} 38q0 26 -${18 + (x % 7)} 56`} />
        ))}
        {[14, 40, 58, 84, 104, 134].map((x) => (
          <ellipse key={x} className="pic-dross" cx={x} cy={99} rx={7} ry={6 + (x % 5)} />
        ))}
      </>
    }
  />
);

const torchParts = (
  <Pair
    good={
      <>
        <circle className="pic-torch" cx={75} cy={66} r={40} />
        <circle className="pic-open" cx={75} cy={66} r={7} />
      </>
    }
    bad={
      <>
        <circle className="pic-torch" cx={75} cy={66} r={40} />
        <path className="pic-open" d="M66 56q12 -8 22 4t-4 18t-20 -2t2 -20z" />
        <circle className="pic-dross" cx={54} cy={84} r={5} />
        <circle className="pic-dross" cx={98} cy={80} r={4} />
      </>
    }
  />
);

const rigCheck = (
  <Pair
    good={
      <>
        <Plate to={92} />
        <path className="pic-face" d={`M98 ${top + 6}h50v26h-50z`} />
        <path className="pic-line" d={`M20 ${top - 10}v46M14 ${top - 10}h22M14 ${bottom + 10}h22M20 ${top + 12}q-24 30 6 46`} />
        <Torch x={95} />
      </>
    }
    bad={
      <>
        <Plate to={92} />
        <path className="pic-face" d={`M98 ${top + 6}h50v26h-50z`} />
        <path className="pic-line" d={`M132 ${top - 4}v46M116 ${top - 4}h22M116 ${bottom + 16}h22`} />
        <Torch x={95} />
      </>
    }
  />
);

const faultFinding = (
  <Pair
    good={
      <>
        <circle className="pic-line" cx={28} cy={64} r={18} />
        <circle className="pic-dot" cx={28} cy={64} r={6} />
        <path className="pic-way" d="M52 64h26m-7 -5l7 5l-7 5" />
        <path className="pic-torch" d="M92 40h40v48h-40z" />
        <path className="pic-good" d="M100 64l8 9 16 -20" />
      </>
    }
    bad={
      <>
        <path className="pic-torch" d="M14 40h30v48h-30zM60 40h30v48h-30zM106 40h30v48h-30z" />
        <path className="pic-dash" d="M75 8L30 38M75 8v30M75 8l45 30" />
      </>
    }
  />
);

const PICTURES = {
  pierce: pierce,
  'groove-depth': grooveDepth,
  'groove-evenness': grooveEvenness,
  'part-size': partSize,
  'gap-crossing': gapCrossing,
  'cut-quality': cutQuality,
  'torch-parts': torchParts,
  'rig-check': rigCheck,
  'fault-finding': faultFinding,
} as const;
export type PictureOfWorkId = keyof typeof PICTURES;

/** The drawing of a measure of pierce, groove, part and rig. */
export function PictureOfWork({ id }: { id: PictureOfWorkId }) {
  return PICTURES[id];
}
