import { useState } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Settings } from '../../electron/contract.ts';
import { ControlsDialog } from '../input/ControlsDialog.tsx';
import { DemoDialog } from '../register/DemoDialog.tsx';
import { useDemoYard } from '../register/demo-yard.ts';
import { useSignedIn } from '../register/signed-in.ts';
import { TIER_NAMES, type TierName } from '../scene/quality-tiers.ts';
import { SoundChoice } from '../sound/SoundChoice.tsx';
import { LANGUAGE_IDS, LANGUAGES, type Language, languageOf } from '../text/language.ts';
import { say } from '../text/say.ts';
import { Action } from '../ui/Action.tsx';
import { Choice } from '../ui/Choice.tsx';
import { Glyph } from '../ui/Glyph.tsx';
import { PricesDialog } from './PricesDialog.tsx';
import { YardSettingsDialog } from './YardSettingsDialog.tsx';
import { changeSettings, useYard } from './yard-store.ts';

/** Light, measures and richness of the picture; on every screen. `tier` is the one drawn now, where a scene is shown. */
export function SettingsMenu({ tier = null }: { tier?: TierName | null }) {
  const settings = useYard((state) => state.settings);
  const auto =
    tier === null ? say('settings.quality.auto-plain') : say('settings.quality.auto', { tier: say(`settings.quality.${tier}`) });
  const [pricing, setPricing] = useState(false);
  const [atDemo, setAtDemo] = useState(false);
  const [atYard, setAtYard] = useState(false);
  const [atControls, setAtControls] = useState(false);
  const setsYard = useSignedIn(({ me }) => me !== null && (!me.rolesBind || me.person?.role === 'instructor'));
  // Not from the bench: the run that is being cut belongs to the yard it was begun in.
  const hasDemo = useDemoYard(({ demo }) => demo !== null && demo.state !== 'missing') && tier === null;
  return (
    <>
      <DialogTrigger>
        <Action kind="quiet">
          <Glyph name="lamp" />
          <span className="settings-name">{say('settings.title')}</span>
        </Action>
        <Popover className="popover" placement="bottom end">
          <Dialog aria-label={say('settings.title')}>
            {({ close }) => (
              <>
                <Choice<Settings['theme']>
                  label={say('settings.theme')}
                  value={settings.theme}
                  onChange={(theme) => changeSettings({ theme })}
                  options={[
                    { value: 'system', label: say('settings.theme.system') },
                    { value: 'light', label: say('settings.theme.light') },
                    { value: 'dark', label: say('settings.theme.dark') },
                  ]}
                />
                <Choice<Language>
                  label={say('settings.language')}
                  value={languageOf(settings.language)}
                  onChange={(language) => changeSettings({ language })}
                  options={LANGUAGE_IDS.map((id) => ({ value: id, label: LANGUAGES[id], language: id }))}
                />
                <p className="small soft choice-about">{say('settings.language.about')}</p>
                <Choice<Settings['units']>
                  label={say('settings.units')}
                  value={settings.units}
                  onChange={(units) => changeSettings({ units })}
                  options={[
                    { value: 'metric', label: say('settings.units.metric') },
                    { value: 'inch', label: say('settings.units.inch') },
                  ]}
                />
                <Choice<Settings['qualityTier']>
                  label={say('settings.quality')}
                  value={settings.qualityTier}
                  onChange={(qualityTier) => changeSettings({ qualityTier })}
                  options={[
                    { value: 'auto', label: auto },
                    ...TIER_NAMES.map((name) => ({ value: name, label: say(`settings.quality.${name}`) })),
                  ]}
                />
                <Choice<Settings['calmLight']>
                  label={say('settings.calm')}
                  value={settings.calmLight}
                  onChange={(calmLight) => changeSettings({ calmLight })}
                  options={[
                    { value: 'system', label: say('settings.calm.system') },
                    { value: 'on', label: say('settings.calm.on') },
                    { value: 'off', label: say('settings.calm.off') },
                  ]}
                />
                <SoundChoice />
                <div className="choice">
                  <span className="choice-label">{say('controls.title')}</span>
                  <Action
                    onPress={() => {
                      close();
                      setAtControls(true);
                    }}
                  >
                    {say('controls.open')}
                  </Action>
                </div>
                <div className="choice">
                  <span className="choice-label">{say('settings.prices')}</span>
                  <Action
                    onPress={() => {
                      // A menu stands above every dialog: it goes before the dialog comes.
                      close();
                      setPricing(true);
                    }}
                  >
                    {say('prices.open')}
                  </Action>
                </div>
                {setsYard && (
                  <div className="choice">
                    <span className="choice-label">{say('yard-settings.choice')}</span>
                    <Action
                      onPress={() => {
                        close();
                        setAtYard(true);
                      }}
                    >
                      {say('yard-settings.open')}
                    </Action>
                  </div>
                )}
                {hasDemo && (
                  <div className="choice">
                    <span className="choice-label">{say('demo.title')}</span>
                    <Action
                      onPress={() => {
                        close();
                        setAtDemo(true);
                      }}
                    >
                      {say('demo.settings')}
                    </Action>
                  </div>
                )}
              </>
            )}
          </Dialog>
        </Popover>
      </DialogTrigger>
      {atControls && <ControlsDialog isOpen onOpenChange={setAtControls} />}
      <DemoDialog isOpen={atDemo} onOpenChange={setAtDemo} />
      {atYard && <YardSettingsDialog isOpen onOpenChange={setAtYard} />}
      <PricesDialog isOpen={pricing} onOpenChange={setPricing} />
    </>
  );
}
