import { useEffect, useRef, useState } from 'react';
import { goTo } from '../app/route.ts';
import { changeSettings, useYard } from '../app/yard-store.ts';
import { placeNow, scaleOf, withScale } from '../input/hand-scale.ts';
import { dateText } from '../register/dates.ts';
import { personText } from '../register/person-text.ts';
import { YardHead } from '../register/YardHead.tsx';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Tick } from '../ui/Tick.tsx';
import { useTitle } from '../ui/use-title.ts';
import { useUnits } from '../ui/use-units.ts';
import { USUAL_SCREEN_PX_PER_MM } from './card-size.ts';
import { HandStep, type NewScale } from './HandStep.tsx';
import { ScreenStep } from './ScreenStep.tsx';

/** Back to where the room was opened from; home where it was opened by its address. */
function leave(): void {
  if (window.history.length > 1) window.history.back();
  else goTo({ at: 'home' });
}

/** How far the hand really goes: the screen by a card held against it, the hand by three strokes along the card. */
export function CalibrationRoom() {
  const units = useUnits();
  const hand = useYard((state) => state.settings.hand);
  const person = useYard(({ people, chosenId }) => people.find(({ id }) => id === chosenId) ?? null);
  const place = placeNow();
  const known = (['mouse', 'pen'] as const)
    .map((device) => scaleOf(hand, person?.id ?? null, device, place))
    .filter((scale) => scale !== null);
  const elsewhere = known.length === 0 && hand.scales.some(({ personId }) => personId === (person?.id ?? null));
  const before = hand.scales.findLast((scale) => scale.place === place)?.screenPxPerMm;
  const [screen, setScreen] = useState<number | null>(null);
  const [settled, setSettled] = useState<boolean | null>(null);
  const [kept, setKept] = useState<NewScale['device'] | null>(null);
  const screenTitle = useRef<HTMLHeadingElement>(null);
  const strokeTitle = useRef<HTMLHeadingElement>(null);
  const keptWords = useRef<HTMLParagraphElement>(null);
  const screenPxPerMm = screen ?? before ?? Math.round(USUAL_SCREEN_PX_PER_MM * 50) / 50;
  const screenSettled = settled ?? before !== undefined;

  useTitle(say('hand.title'));

  function keep(scale: NewScale): void {
    const measured = { ...scale, personId: person?.id ?? null, place, screenPxPerMm, measuredAt: new Date().toISOString() };
    void changeSettings({ hand: { ...withScale(useYard.getState().settings.hand, measured), oneToOne: true } });
    setKept(scale.device);
  }

  // Whatever button is pressed here goes away: what comes in its place takes the focus.
  useEffect(() => {
    if (kept !== null) keptWords.current?.focus();
  }, [kept]);

  function settle(next: boolean): void {
    setSettled(next);
    screenTitle.current?.focus();
  }

  function measureAgain(): void {
    setKept(null);
    strokeTitle.current?.focus();
  }

  return (
    <>
      <YardHead />
      <main id="content" tabIndex={-1} className="home-main hand-room">
        <div>
          <h1>{say('hand.title')}</h1>
          <p className="hand-lead">{say('hand.lead')}</p>
          <p className="soft">{person ? say('hand.who', { name: personText(person.name) }) : say('hand.who-nobody')}</p>
          {known.map((scale) => (
            <p key={scale.device} className="soft" data-known={scale.device}>
              {say(`hand.device.${scale.device}`)}: {say('hand.known', { date: dateText(scale.measuredAt) })}
            </p>
          ))}
          {elsewhere && <p className="notice">{say('hand.elsewhere')}</p>}
        </div>
        <section className="hand-step" aria-labelledby="hand-screen">
          <h2 id="hand-screen" className="kerf-rule" ref={screenTitle} tabIndex={-1}>
            {say('hand.screen')}
          </h2>
          <ScreenStep pxPerMm={screenPxPerMm} settled={screenSettled} units={units} onChange={setScreen} onSettle={settle} />
        </section>
        <section className="hand-step" aria-labelledby="hand-stroke">
          <h2 id="hand-stroke" className="kerf-rule" ref={strokeTitle} tabIndex={-1}>
            {say('hand.stroke')}
          </h2>
          {kept === null ? (
            <HandStep units={units} onKeep={keep} />
          ) : (
            <>
              <p role="status" data-kept={kept} ref={keptWords} tabIndex={-1}>
                <strong>{say(kept === 'pen' ? 'hand.kept.pen' : 'hand.kept')}</strong>
              </p>
              <Tick
                label={say('hand.use')}
                isSelected={hand.oneToOne}
                onChange={(oneToOne) => void changeSettings({ hand: { ...hand, oneToOne } })}
              />
            </>
          )}
        </section>
        <div className="row-actions">
          {kept !== null && <Action onPress={measureAgain}>{say('hand.again')}</Action>}
          <Action kind={kept === null ? 'plain' : 'main'} onPress={leave}>
            {say(kept === null ? 'hand.skip' : 'hand.back')}
          </Action>
        </div>
      </main>
    </>
  );
}
