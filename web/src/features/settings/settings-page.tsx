/** How this person likes to read; remembered in this browser. */

import type { Health } from '../../../../shared/contracts/health.ts';
import { forgetAnswers } from '../../data/last-answers.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { useMe } from '../../data/me.ts';
import { bearerToken, changePrefs, setBearerToken, usePrefs } from '../../data/prefs.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { Choice, TextField } from '../../ui/parts/forms.tsx';
import { MeasureUnits } from '../../ui/parts/measure-field.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { LanguageChoice } from './language-choice.tsx';
import { OnThisDevice } from './on-this-device.tsx';
import { PublishedPiles } from './published-piles.tsx';
import './settings.css';
import { renderHealth } from './render-health.ts';
import { useSettingWords } from './use-setting-words.ts';

export function SettingsPage() {
  const { text } = useSettingWords();
  const heading = usePage(text('page-settings.title'));
  const prefs = usePrefs();
  const me = useMe();
  const nowMs = useServerNow();
  const site = useInstallation((installation) => installation.sites.find((one) => one.timeZone !== null));
  const reader = useReader(site?.id);
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-settings.title')}
      </h1>
      <p class="lead">{text('page-settings.lead')}</p>
      <div class="settings">
        <LanguageChoice />
        <Choice
          legend={text('page-settings.temperature')}
          value={prefs.unit}
          choices={[
            ['C', '°C'],
            ['F', '°F'],
          ]}
          onValue={(unit) => changePrefs({ unit })}
        />
        <p class="hint">{text('page-settings.temperature.hint', { coreC: 41.5 })}</p>
        <MeasureUnits />
        <Choice
          legend={text('page-settings.time')}
          value={prefs.zone}
          choices={[
            ['mine', text('page-settings.time.mine')],
            ['site', text('page-settings.time.site')],
          ]}
          onValue={(zone) => changePrefs({ zone })}
        />
        <p class="hint">
          {text(
            prefs.zone !== 'site'
              ? 'page-settings.time.now'
              : site
                ? 'page-settings.time.now-at'
                : 'page-settings.time.now-here',
            {
              nowText: dayAndTime(nowMs, reader),
              siteName: site?.name ?? '',
            },
          )}
        </p>
        <Choice
          legend={text('page-settings.clock')}
          value={prefs.clock}
          choices={[
            ['region', text('page-settings.clock.region')],
            ['24', text('page-settings.clock.24')],
            ['12', text('page-settings.clock.12')],
          ]}
          onValue={(clock) => changePrefs({ clock })}
        />
        <Choice
          legend={text('page-settings.theme')}
          value={prefs.shade}
          choices={[
            ['auto', text('page-settings.theme.auto')],
            ['light', text('page-settings.theme.light')],
            ['dark', text('page-settings.theme.dark')],
          ]}
          onValue={(shade) => changePrefs({ shade })}
        />
        {me?.via !== 'session' && (
          <TextField
            label={text('page-settings.name')}
            hint={text('page-settings.name.hint')}
            value={prefs.name}
            onValue={(name) => changePrefs({ name: name.slice(0, 80) })}
          />
        )}
        {bearerToken() !== '' && <ForgetToken />}
      </div>
      <OnThisDevice />
      <May to="owner">
        <PublishedPiles />
      </May>
      <SystemFactsView />
    </div>
  );
}

function ForgetToken() {
  const { text } = useSettingWords();
  return (
    <p>
      <button
        type="button"
        onClick={async () => {
          setBearerToken('');
          await forgetAnswers();
          location.reload();
        }}
      >
        {text('page-settings.forget-token')}
      </button>
    </p>
  );
}

const systemParts = ['broker', 'readings', 'journal', 'piles', 'disk', 'delivery'] as const;

function SystemFactsView() {
  const { text } = useSettingWords();
  const health = useInstallation((installation) => installation.health);
  if (!health) return null;
  return (
    <section class="system-facts" aria-labelledby="system-facts">
      <h2 id="system-facts">{text('page-settings.system')}</h2>
      <dl class="ledger">
        {systemParts.map((part) => (
          <div key={part}>
            <dt>{text(`page-settings.part.${part}`)}</dt>
            <PartFact health={health.parts[part]} />
          </div>
        ))}
        <div>
          <dt>{text('page-settings.version')}</dt>
          <dd>
            {text('page-settings.version.is', {
              versionText: health.version,
              isFast: health.speed !== 1,
              speedText: String(health.speed),
            })}
          </dd>
        </div>
      </dl>
    </section>
  );
}

function PartFact({ health }: { readonly health: Health['parts']['disk'] }) {
  const { text } = useSettingWords();
  const said = useSaid(renderHealth);
  const { state } = health;
  return (
    <dd>
      <b>{text(`page-settings.state.${state}`)}</b> {said(health, 'detail')}
    </dd>
  );
}
