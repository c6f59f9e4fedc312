/** How this person likes to read; remembered in this browser. */

import { forgetAnswers } from '../../data/last-answers.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMe } from '../../data/me.ts';
import { bearerToken, changePrefs, setBearerToken, usePrefs } from '../../data/prefs.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { formatTemp } from '../../ui/format/temperature.ts';
import { Choice, TextField } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { LanguageChoice } from './language-choice.tsx';
import { OnThisDevice } from './on-this-device.tsx';
import './settings.css';

export function SettingsPage() {
  const heading = usePage('Settings');
  const prefs = usePrefs();
  const me = useMe();
  const nowMs = useServerNow();
  const site = useInstallation((installation) => installation.sites.find((one) => one.timeZone !== null));
  const reader = useReader(site?.id);
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Settings
      </h1>
      <p class="lead">Remembered in this browser; others choose for themselves.</p>
      <div class="settings">
        <LanguageChoice />
        <Choice
          legend="Temperature"
          value={prefs.unit}
          choices={[
            ['C', '°C'],
            ['F', '°F'],
          ]}
          onValue={(unit) => changePrefs({ unit })}
        />
        <p class="hint">The core of a pile that works well is at about {formatTemp(41.5, prefs.unit)}.</p>
        <Choice
          legend="Time"
          value={prefs.zone}
          choices={[
            ['mine', 'Of this device'],
            ['site', 'Of the site'],
          ]}
          onValue={(zone) => changePrefs({ zone })}
        />
        <p class="hint">
          It is {dayAndTime(nowMs, reader)}
          {prefs.zone === 'site'
            ? site
              ? ` at ${site.name}.`
              : '. No site has said its zone, so this is your own.'
            : '.'}
        </p>
        <Choice
          legend="Paper"
          value={prefs.shade}
          choices={[
            ['auto', 'As the device'],
            ['light', 'Light'],
            ['dark', 'Dark'],
          ]}
          onValue={(shade) => changePrefs({ shade })}
        />
        {me?.via !== 'session' && (
          <TextField
            label="Your name"
            hint="Written beside the warnings you acknowledge, so that others know who saw them. May stay empty."
            value={prefs.name}
            onValue={(name) => changePrefs({ name: name.slice(0, 80) })}
          />
        )}
        {bearerToken() !== '' && <ForgetToken />}
      </div>
      <OnThisDevice />
      <SystemFactsView />
    </div>
  );
}

function ForgetToken() {
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
        Forget the token kept here
      </button>
    </p>
  );
}

const partNames = {
  broker: 'Broker',
  readings: 'Readings',
  journal: 'Journal',
  piles: 'Piles',
  disk: 'Disk',
  delivery: 'Delivery',
} as const;

function SystemFactsView() {
  const health = useInstallation((installation) => installation.health);
  if (!health) return null;
  return (
    <section class="system-facts" aria-labelledby="system-facts">
      <h2 id="system-facts">System status</h2>
      <dl class="ledger">
        {(Object.keys(partNames) as (keyof typeof partNames)[]).map((part) => (
          <div key={part}>
            <dt>{partNames[part]}</dt>
            <dd>
              <b>{health.parts[part].state}</b> {health.parts[part].detail}
            </dd>
          </div>
        ))}
        <div>
          <dt>Version</dt>
          <dd>
            {health.version}
            {health.speed !== 1 && `, its time runs ${health.speed} times as fast`}
          </dd>
        </div>
      </dl>
    </section>
  );
}
