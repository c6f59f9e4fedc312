/** Readings or a journal from a table: looked at first, column by column, and kept only when asked. */
import { useState } from 'preact/hooks';
import type { z } from 'zod';
import {
  type ImportAsk,
  type ImportPreview,
  type importDoneSchema,
  importLimits,
} from '../../../../shared/contracts/import.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { counted } from '../../ui/format/words.ts';
import { Choice, Field, PickField, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { commitImport, previewImport } from './import-api.ts';
import { PreviewView } from './preview-view.tsx';
import './import.css';

type Done = z.infer<typeof importDoneSchema>;
type Settings = Omit<ImportAsk, 'csv' | 'columns'>;

const said = <T extends object>(settings: T): T =>
  Object.fromEntries(Object.entries(settings).filter(([, value]) => value !== '' && value !== undefined)) as T;

/** A file with its settings, looked at before it is kept; whatever changes is looked at anew. */
function useImporting() {
  const mutation = useMutation();
  const [file, setFile] = useState<{ readonly name: string; readonly csv: string }>();
  const [settings, setSettings] = useState<Settings>({
    kind: 'readings',
    timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    temperatureUnit: 'C',
  });
  const [columns, setColumns] = useState<NonNullable<ImportAsk['columns']>>({});
  const [preview, setPreview] = useState<ImportPreview>();
  const [done, setDone] = useState<Done>();

  const askFor = (meanings: NonNullable<ImportAsk['columns']>): ImportAsk => ({
    ...said(settings),
    csv: file?.csv ?? '',
    columns: meanings,
  });
  const look = (meanings: NonNullable<ImportAsk['columns']>) =>
    mutation.run(async () => {
      setDone(undefined);
      setColumns(meanings);
      setPreview(await previewImport(askFor(meanings)));
    });
  const keep = (digest: string) =>
    mutation.run(async () => {
      setDone(await commitImport({ ...askFor(columns), digest }));
      setPreview(undefined);
    });
  const forget = () => {
    setPreview(undefined);
    setDone(undefined);
  };
  const change = (part: Partial<Settings>) => {
    setSettings({ ...settings, ...part });
    forget();
  };
  const choose = (chosen: typeof file) => {
    setFile(chosen);
    forget();
  };
  return { file, choose, settings, change, columns, preview, done, look, keep, mutation };
}

export function ImportPage() {
  const heading = usePage('Import');
  const { file, choose, settings, change, columns, preview, done, look, keep, mutation } = useImporting();
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          <a href="/records">Records</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          Import
        </h1>
        <p class="lead">
          A table saved as CSV. You see first what each column becomes; nothing is kept before you say so.
        </p>
      </div>
      <Part id="file" title="The file">
        <form
          class="form"
          onSubmit={(event) => {
            event.preventDefault();
            void look({});
          }}
        >
          <FileField name={file?.name} onFile={choose} />
          <FileSettings settings={settings} change={change} wrong={mutation.fieldError} />
          <Refusal error={mutation.error} />
          <button type="submit" class="primary" disabled={mutation.busy || !file}>
            Look at it
          </button>
        </form>
      </Part>
      {preview && (
        <PreviewView
          kind={settings.kind}
          preview={preview}
          busy={mutation.busy}
          onColumn={(heading_, meaning) => void look({ ...columns, [heading_]: meaning })}
          onKeep={() => void keep(preview.digest)}
        />
      )}
      <div role="status">{done && <DoneLine done={done} />}</div>
    </div>
  );
}

function DoneLine({ done }: { readonly done: Done }) {
  return (
    <p class="sentence">
      {counted(done.kept, 'row')} kept
      {done.known > 0 && `, ${done.known} were there before`}
      {done.conflicting > 0 && `, ${done.conflicting} differ from what is stored; the stored values were kept`}
      {done.downsampled > 0 &&
        `, ${done.downsampled} not taken, as of that time only ten-minute means of their probe are kept (give the log a probe name of its own)`}
      {done.refused > 0 && `, ${done.refused} refused`}.
    </p>
  );
}

interface FileFieldProps {
  readonly name: string | undefined;
  readonly onFile: (file: { name: string; csv: string } | undefined) => void;
}

function FileField({ name, onFile }: FileFieldProps) {
  const [problem, setProblem] = useState<string>();
  const take = async (file: File | undefined) => {
    setProblem(undefined);
    if (!file) return onFile(undefined);
    if (file.size > importLimits.bytes) {
      setProblem('The file is larger than 20 MB: part it.');
      return onFile(undefined);
    }
    onFile({ name: file.name, csv: await file.text() });
  };
  return (
    <Field label="CSV file" hint={name ? undefined : 'Its first line must name the columns.'} error={problem}>
      {(ids) => (
        <input
          {...ids}
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/plain"
          onChange={(event) => void take(event.currentTarget.files?.[0])}
        />
      )}
    </Field>
  );
}

interface FileSettingsProps {
  readonly settings: Settings;
  readonly change: (part: Partial<Settings>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function FileSettings({ settings, change, wrong }: FileSettingsProps) {
  const sites = useInstallation((installation) => installation.sites);
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const none = ['', 'A column says it'] as const;
  return (
    <>
      <Choice
        legend="It holds"
        value={settings.kind}
        choices={[
          ['readings', 'Readings of probes'],
          ['entries', 'A journal'],
        ]}
        onValue={(kind) => change({ kind })}
      />
      {settings.kind === 'readings' ? (
        <div class="field-row">
          <PickField
            label="Place of the probes"
            value={settings.site ?? ''}
            choices={[none, ...sites.map((site) => [site.id, site.name] as const)]}
            onValue={(site) => change({ site })}
            error={wrong('/site')}
          />
          <TextField
            label="Probe"
            mono
            hint="Empty where a column or its heading says it."
            value={settings.probe ?? ''}
            onValue={(probe) => change({ probe })}
            error={wrong('/probe')}
          />
        </div>
      ) : (
        <PickField
          label="Pile"
          value={settings.pileId ?? ''}
          choices={[none, ...piles.map((pile) => [pile.id, pile.name] as const)]}
          onValue={(pileId) => change({ pileId })}
          error={wrong('/pileId')}
        />
      )}
      <details class="more">
        <summary>How its days, times and temperatures are written</summary>
        <TextField
          label="Time zone of times without one"
          value={settings.timeZone ?? ''}
          onValue={(timeZone) => change({ timeZone })}
          error={wrong('/timeZone')}
        />
        <Choice
          legend="03/04 is"
          value={settings.dateOrder ?? ''}
          choices={[
            ['', 'Found out'],
            ['day-first', '3 April'],
            ['month-first', 'March 4'],
          ]}
          onValue={(order) => change({ dateOrder: order === '' ? undefined : order })}
        />
        <Choice
          legend="Temperatures without a unit"
          value={settings.temperatureUnit ?? 'C'}
          choices={[
            ['C', '°C'],
            ['F', '°F'],
          ]}
          onValue={(temperatureUnit) => change({ temperatureUnit })}
        />
      </details>
    </>
  );
}
