import type { MeasureId } from '../../sim-core/index.ts';
import { useYard } from '../app/yard-store.ts';
import { controlWords } from '../input/control-names.ts';
import { say } from '../text/say.ts';
import { MeasurePicture } from './MeasurePicture.tsx';

const PARTS = ['means', 'matters', 'better'] as const;

/** One measure on one screen: its picture, what it means, why it matters on real metal, how to do better. */
export function MeasureHelp({ id, level }: { id: MeasureId; level: 2 | 3 }) {
  const controls = controlWords(useYard((state) => state.settings.hand));
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
            <p>{say(`help.${id}.${part}`, controls)}</p>
          </section>
        ))}
      </div>
    </div>
  );
}
