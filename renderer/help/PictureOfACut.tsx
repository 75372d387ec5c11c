import { Arc, Pair, PLATE, Plate, Sparks, Torch, Way } from './Pair.tsx';

const { top, bottom } = PLATE;

const severance = (
  <Pair
    good={
      <>
        <Plate from={86} />
        <Torch x={84} />
        <Arc x={84} />
        <Sparks x={82} deg={22} />
        <path className="pic-metal" d="M8 100l62 6v22l-62 -6z" />
        <Way x={96} />
      </>
    }
    bad={
      <>
        <Plate />
        <path className="pic-open" d={`M0 ${top}h84v17h-84z`} />
        <Torch x={84} />
        <Arc x={84} to={top + 15} />
        <Sparks x={80} y={top + 2} deg={125} length={30} />
        <Way x={96} />
      </>
    }
  />
);

const travelSpeed = (
  <Pair
    good={
      <>
        <Plate from={80} />
        <path className="pic-face" d={`M0 ${top}h76l-8 26h-68z`} />
        <Torch x={80} />
        <Arc x={80} />
        <Sparks x={74} deg={22} />
        <Way x={92} length={34} />
      </>
    }
    bad={
      <>
        <Plate from={80} />
        <path className="pic-face" d={`M0 ${top}h72l-30 26h-42z`} />
        <Torch x={80} />
        <Arc x={78} to={top + 12} />
        <Sparks x={46} deg={62} />
        <Way x={80} length={62} />
      </>
    }
  />
);

const sparkAngle = (
  <Pair
    good={
      <>
        <Plate />
        <path className="pic-band" d={`M80 ${bottom}L69 132A42 42 0 0 1 56 122Z`} />
        <Torch x={80} />
        <Arc x={80} />
        <Sparks x={80} deg={22} length={42} />
        <path className="pic-dash" d={`M80 ${bottom}v44`} />
      </>
    }
    bad={
      <>
        <Plate />
        <path className="pic-band" d={`M80 ${bottom}L69 132A42 42 0 0 1 56 122Z`} />
        <Torch x={80} />
        <Arc x={80} />
        <Sparks x={80} deg={66} length={42} />
        <path className="pic-dash" d={`M80 ${bottom}v44`} />
      </>
    }
  />
);

const squareness = (
  <Pair
    good={
      <>
        <Plate to={70} />
        <Plate from={80} />
        <Torch x={75} />
        <path className="pic-dash" d={`M70 ${top - 2}v44M80 ${top - 2}v44`} />
      </>
    }
    bad={
      <>
        <path className="pic-metal" d={`M0 ${top}h72l-12 26h-60z`} />
        <path className="pic-metal" d={`M82 ${top}h68v26h-80z`} />
        <Torch x={77} lean={25} />
        <path className="pic-dash" d={`M72 ${top - 2}v44M82 ${top - 2}v44`} />
      </>
    }
  />
);

const standOff = (
  <Pair
    good={
      <>
        <Plate />
        <Torch x={75} up={7} />
        <Arc x={75} up={7} />
        <path className="pic-line" d={`M96 ${top - 7}h18M96 ${top}h18M105 ${top - 16}v9M105 ${top + 9}v-9`} />
      </>
    }
    bad={
      <>
        <Plate />
        <Torch x={75} up={26} />
        <path className="pic-arc" d={`M73 ${top - 26}h4l9 26v14h-22v-14z`} />
        <path className="pic-line" d={`M96 ${top - 26}h18M96 ${top}h18M105 ${top - 26}v26`} />
      </>
    }
  />
);

const lineFollowing = (
  <Pair
    good={
      <>
        <rect className="pic-metal" y={20} width={150} height={90} />
        <path className="pic-chalk" d="M0 64h150" />
        <path className="pic-kerf" d="M0 64h96" />
        <circle className="pic-torch" cx={98} cy={64} r={9} />
      </>
    }
    bad={
      <>
        <rect className="pic-metal" y={20} width={150} height={90} />
        <path className="pic-chalk" d="M0 64h150" />
        <path className="pic-kerf" d="M0 64q22 -26 44 -6t46 12" />
        <circle className="pic-torch" cx={92} cy={70} r={9} />
      </>
    }
  />
);

const edgeDwell = (
  <Pair
    good={
      <>
        <Plate from={40} />
        <Torch x={42} />
        <Arc x={42} />
        <Sparks x={42} deg={4} />
        <path className="pic-dash" d="M42 8v14" />
      </>
    }
    bad={
      <>
        <Plate from={40} />
        <path className="pic-open" d={`M40 ${top}h44l-8 16h-36z`} />
        <Torch x={86} />
        <Arc x={84} to={top + 14} />
        <Sparks x={80} y={top + 2} deg={120} length={28} />
        <Way x={98} />
      </>
    }
  />
);

const steadiness = (
  <Pair
    good={
      <>
        <rect className="pic-metal" y={30} width={150} height={70} />
        <path className="pic-kerf" d="M0 64h150" />
        {[12, 36, 60, 84, 108, 132].map((x) => (
          <circle key={x} className="pic-dot" cx={x} cy={82} r={4} />
        ))}
      </>
    }
    bad={
      <>
        <rect className="pic-metal" y={30} width={150} height={70} />
        <path className="pic-kerf" d="M0 64h150" />
        <circle className="pic-open" cx={62} cy={64} r={8} />
        {[12, 50, 58, 64, 70, 128].map((x) => (
          <circle key={x} className="pic-dot" cx={x} cy={82} r={4} />
        ))}
      </>
    }
  />
);

const endOfCut = (
  <Pair
    good={
      <>
        <path className="pic-face" d={`M0 ${top}h104v26h-104z`} />
        <Torch x={112} />
        <Sparks x={106} deg={12} />
        <path className="pic-dash" d="M104 20v96" />
      </>
    }
    bad={
      <>
        <path className="pic-face" d={`M0 ${top}h104v26h-104z`} />
        <path className="pic-metal" d={`M104 ${top + 4}v22h-26z`} />
        <Torch x={112} />
        <path className="pic-dash" d="M104 20v96" />
      </>
    }
  />
);

const PICTURES = {
  severance: severance,
  'travel-speed': travelSpeed,
  'spark-angle': sparkAngle,
  squareness: squareness,
  'stand-off': standOff,
  'line-following': lineFollowing,
  'edge-dwell': edgeDwell,
  steadiness: steadiness,
  'end-of-cut': endOfCut,
} as const;
export type PictureOfACutId = keyof typeof PICTURES;

export function isPictureOfACut(id: string): id is PictureOfACutId {
  return Object.hasOwn(PICTURES, id);
}

/** The drawing of a measure of the hand along a cut. */
export function PictureOfACut({ id }: { id: PictureOfACutId }) {
  return PICTURES[id];
}
