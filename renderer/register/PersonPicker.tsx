import { choosePerson, createPerson, useYard } from '../app/yard-store.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Pick } from '../ui/Pick.tsx';
import { personText } from './person-text.ts';

const NOBODY = 'nobody';

/** Who practises from now on, by number. */
export function PersonPicker() {
  const people = useYard((state) => state.people);
  const chosenId = useYard((state) => state.chosenId);
  return (
    <div className="person-picker">
      <Pick
        label={say('home.who')}
        value={chosenId ?? NOBODY}
        onChange={(key) => choosePerson(key === NOBODY ? null : key)}
        options={[
          { value: NOBODY, label: say('home.who.nobody') },
          ...people.map((person) => ({ value: person.id, label: personText(person.name) })),
        ]}
      />
      <Action onPress={() => createPerson('apprentice')}>{say('home.who.new')}</Action>
    </div>
  );
}
