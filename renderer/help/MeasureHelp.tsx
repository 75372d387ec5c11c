import type { MeasureId } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { MeasurePicture } from './MeasurePicture.tsx';

const PARTS = ['means', 'matters', 'better'] as const;

/** One measure on one screen: its picture, what it means, why it matters on real metal, how to do better. */
export function MeasureHelp({ id, level }: { id: MeasureId; level: 2 | 3 }) {
  const Head = `h${level}` as const;
  return (
    <div className="measure-help" data-help={id}>
      <figure>
        <MeasurePicture id={id} />
        <figcaption className="small soft">{say('help.picture')}</figcaption>
      </figure>
      <div>
        {PARTS.map((part) => (
          <section key={part}>
            <Head>{say(`help.${part}`)}</Head>
            <p>{say(`help.${id}.${part}`)}</p>
          </section>
        ))}
      </div>
    </div>
  );
}
