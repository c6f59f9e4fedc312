/** Asks for a key and gives the file for a board with all filled in. Nothing of it is stored: it is gone when the page is. */
import { useState } from 'preact/hooks';
import type { ProbeSettings } from '../../../../ingest/probes/fill-in.ts';
import { nameSchema } from '../../../../shared/names.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { newKeyOf } from '../keys/key-draft.ts';
import { makeKey } from '../keys/keys-api.ts';
import { useKeyWords } from '../keys/use-key-words.ts';
import { BoardFileView } from './board-file-view.tsx';
import { type Firmware, firmwares, foreignTopics } from './board-files.ts';
import { type HelpCode, useHelp } from './help-texts.tsx';

interface Draft {
  readonly firmware: Firmware;
  readonly site: string;
  readonly probe: string;
  readonly sensors: 'chip' | 'soil';
  readonly power: 'usb' | 'battery';
  readonly wifi: string;
  readonly wifiPassword: string;
  readonly broker: string;
  readonly port: string;
  readonly user: string;
  readonly password: string;
}

const emptyDraft: Draft = {
  firmware: 'micropython',
  site: '',
  probe: '',
  sensors: 'chip',
  power: 'usb',
  wifi: '',
  wifiPassword: '',
  broker: '',
  port: '1883',
  user: '',
  password: '',
};

export function BoardForm() {
  const { text } = useHelp();
  const words = useKeyWords();
  const mutation = useMutation();
  const root = useInstallation((installation) => installation.health?.broker.root) ?? 'piles';
  const firstSite = useInstallation((installation) => installation.sites[0]?.id) ?? '';
  const [typed, setDraft] = useState(emptyDraft);
  const [cautions, setCautions] = useState({ onlyHere: false, tls: false });
  const draft = { ...typed, site: typed.site || firstSite };
  const change = (part: Partial<Draft>) => {
    mutation.clear();
    setDraft({ ...typed, ...part });
  };
  const askForKey = async () => {
    const foreign = foreignTopics(draft.firmware, draft.probe);
    const made = await makeKey(newKeyOf({ ...draft, use: 'probe', name: '', foreign }, words));
    const { host, port, onlyHere, tls } = made.broker;
    setCautions({ onlyHere, tls });
    setDraft({ ...draft, broker: host, port: String(port), user: made.id, password: made.secret });
  };
  const field = (name: 'wifi' | 'wifiPassword' | 'broker' | 'port' | 'user' | 'password', label: HelpCode) => (
    <TextField label={text(label)} mono value={draft[name]} onValue={(value) => change({ [name]: value })} />
  );
  const settings = settingsOf(draft, root);
  const choice = <Name extends 'firmware' | 'sensors' | 'power'>(name: Name, choices: readonly Draft[Name][]) => (
    <Choice
      legend={text(`page-help.probe.form.${name}`)}
      value={draft[name]}
      choices={choices.map((one) => [one, text(`page-help.probe.form.${one}`)] as const)}
      onValue={(value) => change({ [name]: value })}
    />
  );
  return (
    <form
      class="form"
      aria-label={text('page-help.probe.file.title')}
      onSubmit={(event) => {
        event.preventDefault();
        void mutation.run(askForKey);
      }}
    >
      {choice('firmware', firmwares)}
      <p class="hint">{text(`page-help.probe.form.${draft.firmware}.hint`)}</p>
      {draft.firmware !== 'tasmota' && choice('sensors', ['chip', 'soil'])}
      {(draft.firmware === 'micropython' || draft.firmware === 'arduino') && choice('power', ['usb', 'battery'])}
      <TextField
        label={words.text('page-keys.site')}
        mono
        required
        hint={words.text('page-keys.site.hint')}
        value={draft.site}
        error={mutation.fieldError('/site')}
        onValue={(site) => change({ site })}
      />
      <TextField
        label={words.text('page-keys.probe')}
        mono
        required
        value={draft.probe}
        error={mutation.fieldError('/probe')}
        onValue={(probe) => change({ probe })}
      />
      {draft.firmware !== 'tasmota' && (
        <>
          {field('wifi', 'page-help.probe.form.wifi')}
          {field('wifiPassword', 'page-help.probe.form.wifi-password')}
        </>
      )}
      <Refusal error={mutation.error} />
      <May to="owner">
        <button type="submit" class="primary" disabled={mutation.busy}>
          {words.text('page-keys.make')}
        </button>
      </May>
      <details class="more">
        <summary>{text('page-help.probe.form.own')}</summary>
        {field('broker', 'page-help.probe.form.broker')}
        {field('port', 'page-help.probe.form.port')}
        {field('user', 'page-help.probe.form.user')}
        {field('password', 'page-help.probe.form.password')}
      </details>
      {cautions.onlyHere && (
        <p class="caution">{words.rich('page-keys.new.let-in', { link: (inner) => <a href="/reach">{inner}</a> })}</p>
      )}
      {cautions.tls && <p class="caution">{text('page-help.probe.form.tls')}</p>}
      {settings && <BoardFileView firmware={draft.firmware} settings={settings} />}
    </form>
  );
}

/** Undefined while something is missing, or cannot be. */
function settingsOf(draft: Draft, root: string): ProbeSettings | undefined {
  const { site, probe, wifi, wifiPassword, broker, user, password } = draft;
  const port = Number(draft.port);
  const areNames = nameSchema.safeParse(site).success && nameSchema.safeParse(probe).success;
  const isKey = [broker, user, password].every((value) => value !== '' && !/[;\s]/.test(value));
  if (!areNames || !isKey || !Number.isInteger(port) || port < 1 || port > 65_535) return undefined;
  const withSoil = draft.sensors === 'soil';
  const withBattery = draft.power === 'battery';
  return { wifi, wifiPassword, broker, port, user, password, root, site, probe, withSoil, withBattery };
}
