/** Where a new batch is laid: on a pile that is free, or on a new one. */
import type { z } from 'zod';
import type { layOnSchema } from '../../../../shared/contracts/lineage.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { PickField, TextField } from '../../ui/parts/forms.tsx';
import { useBatchWords } from './use-batch-words.ts';

export interface LayOnDraft {
  /** A pile's id, or '' for a new pile. */
  readonly pileId: string;
  readonly site: string;
  readonly name: string;
}
export const emptyLayOn: LayOnDraft = { pileId: '', site: '', name: '' };

/** @param site of the batch it comes from, unless another was chosen. */
export function layOnBody({ pileId, site, name }: LayOnDraft, fromSite: string): z.input<typeof layOnSchema> {
  return pileId === '' ? { newPile: { site: site || fromSite, name: name.trim() } } : { pileId };
}

interface LayOnFieldsProps {
  readonly draft: LayOnDraft;
  readonly onDraft: (change: Partial<LayOnDraft>) => void;
  readonly fromSite: string;
  readonly wrong: (pointer: string) => string | undefined;
  /** The pile the batch leaves, free once it does. */
  readonly leaving?: { readonly id: string; readonly name: string } | undefined;
}

export function LayOnFields({ draft, onDraft, fromSite, wrong, leaving }: LayOnFieldsProps) {
  const { text } = useBatchWords();
  const sites = useInstallation((installation) => installation.sites);
  const free = useInstallation((installation) => installation.piles)?.filter((pile) => pile.batch === null) ?? [];
  const choices: (readonly [string, string])[] = [
    ['', text('page-batch.on.new')],
    ...(leaving ? [[leaving.id, text('page-batch.on.same', { pileName: leaving.name })] as const] : []),
    ...free
      .filter((pile) => pile.id !== leaving?.id)
      .map(({ id, name }) => [id, text('page-batch.on.free', { pileName: name })] as const),
  ];
  return (
    <div class="field-row">
      <PickField
        label={text('page-batch.on')}
        value={draft.pileId}
        choices={choices}
        onValue={(pileId) => onDraft({ pileId })}
        error={wrong('/pileId')}
      />
      {draft.pileId === '' && (
        <TextField
          label={text('page-batch.on.name')}
          value={draft.name}
          onValue={(name) => onDraft({ name })}
          required
          error={wrong('/newPile/name') ?? wrong('/newPile') ?? wrong('')}
        />
      )}
      {draft.pileId === '' && sites.length > 1 && (
        <PickField
          label={text('page-batch.on.place')}
          value={draft.site || fromSite}
          choices={sites.map((site) => [site.id, site.name] as const)}
          onValue={(site) => onDraft({ site })}
          error={wrong('/newPile/site')}
        />
      )}
    </div>
  );
}
