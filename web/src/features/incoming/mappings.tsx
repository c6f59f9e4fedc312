/** The mappings of foreign topics that are in use. */
import type { z } from 'zod';
import type { mappingSchema } from '../../../../shared/contracts/ingest.ts';
import { removeMapping } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { shortName } from '../../ui/format/quantity-words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import './incoming.css';

type Mapping = z.output<typeof mappingSchema>;

interface MappingsProps {
  readonly mappings: readonly Mapping[];
  readonly onChange: () => Promise<void>;
}

export function Mappings({ mappings, onChange }: MappingsProps) {
  const mutation = useMutation();
  if (mappings.length === 0) return <p class="quiet">No foreign topic is mapped.</p>;
  return (
    <>
      <ul class="mappings">
        {mappings.map((mapping) => (
          <li key={mapping.id}>
            <p>
              <code>{mapping.filter}</code> at{' '}
              <code>{mapping.pointer === '' ? 'the whole message' : mapping.pointer}</code> becomes{' '}
              {shortName(mapping.quantity)} of{' '}
              <b>
                {mapping.site}/{mapping.probe}
              </b>
              , read as {mapping.unit}
              {mapping.scale !== 1 && ` after × ${mapping.scale}`}
              {mapping.timePointer && `, time at ${mapping.timePointer}`}.
            </p>
            <May to="owner">
              <button
                type="button"
                disabled={mutation.busy}
                aria-label={`Remove the mapping of ${mapping.filter} to ${mapping.probe}`}
                onClick={() => mutation.run(() => removeMapping(mapping.id).then(onChange))}
              >
                Remove
              </button>
            </May>
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
    </>
  );
}
