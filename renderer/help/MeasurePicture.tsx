import type { MeasureId } from '../../sim-core/index.ts';
import { isPictureOfACut, PictureOfACut } from './PictureOfACut.tsx';
import { PictureOfWork } from './PictureOfWork.tsx';

/** What a measure looks at: right beside wrong. */
export function MeasurePicture({ id }: { id: MeasureId }) {
  return isPictureOfACut(id) ? <PictureOfACut id={id} /> : <PictureOfWork id={id} />;
}
