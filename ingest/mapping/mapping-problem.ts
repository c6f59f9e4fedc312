/** What is wrong with a mapping in itself. */
import type { MappedValue, MappingInput } from '../../shared/contracts/mappings.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { namePattern } from '../../shared/names.ts';
import { isTimeZone } from '../../shared/zoned-time.ts';
import { unitsOf } from '../decode/checked-value.ts';
import { pointerProblem } from './json-pointer.ts';
import { isPlain, placeholdersOf } from './name-template.ts';
import { mappingFilterProblem, wildcardCount } from './topic-filter.ts';

interface Problem {
  readonly pointer: string;
  readonly said: Message;
}

/** The field at fault as JSON Pointer into the mapping, and what it must be; undefined when the mapping can work. */
export function mappingProblem(mapping: MappingInput): Problem | undefined {
  const { filter, values, timePointer = '', timeZone } = mapping;
  const wrongFilter = mappingFilterProblem(filter);
  if (wrongFilter !== undefined) return { pointer: '/filter', said: wrongFilter };
  const wrongTime = pointerProblem(timePointer);
  if (wrongTime !== undefined) return { pointer: '/timePointer', said: wrongTime };
  if (timeZone !== undefined && !isTimeZone(timeZone))
    return { pointer: '/timeZone', said: message('field.mapping.zone') };
  const wildcards = wildcardCount(filter);
  for (const [index, value] of values.entries()) {
    const problem = valueProblem(value, wildcards);
    if (problem !== undefined) return { ...problem, pointer: `/values/${index}${problem.pointer}` };
  }
  // Of what is not for us nothing has a name.
  if (values.length === 0) return undefined;
  return (
    nameProblem('/site', mapping.site, wildcards) ?? probeProblem(mapping, wildcards) ?? availabilityProblem(mapping)
  );
}

function valueProblem(value: MappedValue, wildcards: number): Problem | undefined {
  const pointers = [
    ['/pointer', value.pointer],
    ['/each', value.each ?? ''],
    ['/only/pointer', value.only?.pointer ?? ''],
  ] as const;
  for (const [pointer, text] of pointers) {
    const said = pointerProblem(text);
    if (said !== undefined) return { pointer, said };
  }
  const units = unitsOf(value.quantity);
  if (!units.includes(value.unit)) {
    const said = message('field.mapping.unit', { unitsText: units.join(', '), quantityName: value.quantity });
    return { pointer: '/unit', said };
  }
  return value.probe === undefined ? undefined : nameProblem('/probe', value.probe, wildcards);
}

/** Needed only by values that name none of their own. */
function probeProblem({ values, probe }: MappingInput, wildcards: number): Problem | undefined {
  return values.every((value) => value.probe !== undefined) && probe === ''
    ? undefined
    : nameProblem('/probe', probe, wildcards);
}

function nameProblem(pointer: string, template: string, wildcards: number): Problem | undefined {
  const placeholders = placeholdersOf(template);
  if (placeholders.wildcards.some((number) => number < 1 || number > wildcards))
    return { pointer, said: message('field.mapping.wildcards', { wildcardsCount: wildcards }) };
  if (isPlain(placeholders) && !namePattern.test(template)) return { pointer, said: message('field.name') };
  return undefined;
}

function availabilityProblem({ filter, availability }: MappingInput): Problem | undefined {
  if (availability === undefined) return undefined;
  const wrongFilter = mappingFilterProblem(availability.filter);
  if (wrongFilter !== undefined) return { pointer: '/availability/filter', said: wrongFilter };
  const wildcards = wildcardCount(filter);
  if (wildcardCount(availability.filter) > wildcards)
    return {
      pointer: '/availability/filter',
      said: message('field.mapping.wildcards', { wildcardsCount: wildcards }),
    };
  const wrongPointer = pointerProblem(availability.pointer);
  return wrongPointer === undefined ? undefined : { pointer: '/availability/pointer', said: wrongPointer };
}
