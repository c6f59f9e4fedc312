/** The mappings of foreign topics that are in use. */
import type { z } from 'zod';
import type { mappingSchema } from '../../../../shared/contracts/ingest.ts';
import { removeMapping } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { shortName } from '../../ui/format/quantity-words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import './incoming.css';
import { useIncomingWords } from './use-incoming-words.ts';

type Mapping = z.output<typeof mappingSchema>;

interface MappingsProps {
  readonly mappings: readonly Mapping[];
  readonly onChange: () => Promise<void>;
}

export function Mappings({ mappings, onChange }: MappingsProps) {
  const { text, rich } = useIncomingWords();
  const mutation = useMutation();
  if (mappings.length === 0) return <p class="quiet">{text('page-incoming.mappings.none')}</p>;
  return (
    <>
      <ul class="mappings">
        {mappings.map((mapping) => (
          <li key={mapping.id}>
            <p>
              {rich('page-incoming.mappings.one', {
                topicText: mapping.filter,
                mono: (inner) => <code>{inner}</code>,
                isWhole: mapping.pointer === '',
                pointerText: mapping.pointer,
                quantityName: shortName(mapping.quantity),
                probeText: `${mapping.site}/${mapping.probe}`,
                strong: (inner) => <b>{inner}</b>,
                unitText: mapping.unit,
                isScaled: mapping.scale !== 1,
                scaleText: String(mapping.scale),
                isTimed: Boolean(mapping.timePointer),
                timeText: mapping.timePointer ?? '',
              })}
            </p>
            <May to="owner">
              <button
                type="button"
                disabled={mutation.busy}
                aria-label={text('page-incoming.mappings.remove.of', {
                  topicText: mapping.filter,
                  probeName: mapping.probe,
                })}
                onClick={() => mutation.run(() => removeMapping(mapping.id).then(onChange))}
              >
                {text('page-incoming.mappings.remove')}
              </button>
            </May>
          </li>
        ))}
      </ul>
      <Refusal error={mutation.error} />
    </>
  );
}
