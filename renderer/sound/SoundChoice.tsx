import { Label, Slider, SliderThumb, SliderTrack } from 'react-aria-components';
import { changeSettings, useYard } from '../app/yard-store.ts';
import type { TextKey } from '../text/en.ts';
import { say } from '../text/say.ts';
import { Choice } from '../ui/Choice.tsx';
import { levelWord } from './level-word.ts';
import { useSoundState } from './use-sound.ts';

const STEP = 0.05;

/** Sound of the bench in the settings: whether, and how loud, in words. */
export function SoundChoice() {
  const { soundOn, soundLevel } = useYard((state) => state.settings);
  const state = useSoundState();
  return (
    <div className="choice sound-choice">
      <Choice<'on' | 'off'>
        label={say('sound.setting')}
        value={soundOn ? 'on' : 'off'}
        onChange={(value) => changeSettings({ soundOn: value === 'on' })}
        options={[
          { value: 'on', label: say('sound.setting.on') },
          { value: 'off', label: say('sound.setting.off') },
        ]}
      />
      <Slider
        className="sound-level"
        isDisabled={!soundOn}
        minValue={0}
        maxValue={1}
        step={STEP}
        formatOptions={{ style: 'percent' }}
        value={soundLevel}
        onChange={(level) => useYard.setState(({ settings }) => ({ settings: { ...settings, soundLevel: level as number } }))}
        onChangeEnd={(level) => void changeSettings({ soundLevel: level as number })}
      >
        <Label>{say('sound.level')}</Label>
        <span className="sound-level-word">{say(`sound.level.${levelWord(soundLevel)}` as TextKey)}</span>
        <SliderTrack className="sound-level-track">
          <SliderThumb className="sound-level-thumb" />
        </SliderTrack>
      </Slider>
      {state === 'none' && <p className="small soft sound-level-note">{say('sound.none')}</p>}
    </div>
  );
}
