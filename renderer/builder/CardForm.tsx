import { CAUTION_IDS, type CautionId, type Drill, TECHNIQUES, type Technique } from '../../sim-core/index.ts';
import { say } from '../text/say.ts';
import { Pick } from '../ui/Pick.tsx';
import { Tick } from '../ui/Tick.tsx';
import { edit } from './builder-store.ts';
import { TextEntry } from './TextEntry.tsx';

const card = (part: Partial<Drill['card']>, about: string | null) =>
  edit((drill) => ({ ...drill, card: { ...drill.card, ...part } }), about);

/** What an apprentice reads before the arc. */
export function CardForm({ drill }: { drill: Drill }) {
  const { purpose, task, hints, cautions, onRealPlate } = drill.card;
  const without = (id: CautionId) => cautions.filter((one) => one !== id);
  return (
    <>
      <TextEntry
        label={say('builder.card.title')}
        value={drill.title}
        onChange={(title) => edit((now) => ({ ...now, title }), 'title')}
      />
      <Pick<Technique>
        label={say('home.filter.technique')}
        value={drill.technique}
        options={TECHNIQUES.map((id) => ({ value: id, label: say(`technique.${id}`) }))}
        onChange={(technique) => edit((now) => ({ ...now, technique }))}
      />
      <TextEntry label={say('card.purpose')} value={purpose} rows={3} onChange={(text) => card({ purpose: text }, 'purpose')} />
      <TextEntry label={say('card.task')} value={task} rows={4} onChange={(text) => card({ task: text }, 'task')} />
      <TextEntry
        label={say('builder.card.hints')}
        value={hints.join('\n')}
        rows={3}
        onChange={(text) =>
          card({ hints: text.split('\n').flatMap((line) => (line.trim() === '' ? [] : [line.trim()])) }, 'hints')
        }
      />
      <fieldset className="entry-group">
        <legend className="entry-label">{say('card.cautions')}</legend>
        {CAUTION_IDS.map((id) => (
          <Tick
            key={id}
            label={say(`caution.${id}.name`)}
            isSelected={cautions.includes(id)}
            // The last one stays: there is no cut without a danger.
            isDisabled={cautions.length === 1 && cautions.includes(id)}
            onChange={(on) => card({ cautions: on ? [...cautions, id] : without(id) }, null)}
          />
        ))}
      </fieldset>
      <TextEntry
        label={say('builder.card.real')}
        value={onRealPlate}
        rows={3}
        onChange={(text) => card({ onRealPlate: text }, 'real')}
      />
    </>
  );
}
