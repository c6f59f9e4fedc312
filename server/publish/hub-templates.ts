/** What a home automation hub works out of a pile's state, in the language of its templates (Jinja). No word of a person stands here. */
import type { Position } from '../../shared/names.ts';

/** A broker keeps the last state of a server that is long gone. */
export const availableFor = (seconds: number) =>
  `{{ 'online' if value_json is defined and as_timestamp(now()) - as_timestamp(value_json.at) < ${seconds} else 'offline' }}`;

/** What a silent probe said last is not how it is now. */
export function temperatureAt(place: Position): string {
  const at = `value_json.positions.${place}`;
  return `{{ ${at}.temperatureC if ${at} is defined and not ${at}.silent else None }}`;
}

export const moisturePct =
  '{{ (value_json.batch.moisture.frac * 100) | round(0) if value_json.batch and value_json.batch.moisture is defined else None }}';

export const fieldOf = (name: string) => `{{ value_json.${name} }}`;
export const beginningOf = (name: string, characters: number) => `{{ value_json.${name}[:${characters}] }}`;

/** When the button was pressed. */
export const pressedNow = '{"at": "{{ utcnow().isoformat() }}"}';
