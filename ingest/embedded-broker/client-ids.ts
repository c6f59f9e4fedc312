/**
 * Client ids that nobody can take from another key.
 *
 * A second connection with the same client id ends the first [MQTT-3.1.4-2], so within the broker each key has client
 * ids of its own: a probe that takes another's id by mistake or in malice ends nobody's connection but its own.
 */
const mark = 'key:';

/** What the broker knows a connection by; an empty id stays empty, and the broker makes one up [MQTT-3.1.3-6]. */
export function clientIdFor(username: string | undefined, clientId: string): string {
  if (clientId === '') return clientId;
  if (username !== undefined && username !== '') return `${mark}${username}:${clientId}`;
  return clientId.startsWith(mark) ? `:${clientId}` : clientId;
}

/** As the client itself calls itself. */
export function shownClientId(known: string | null): string {
  if (known === null) return '';
  if (!known.startsWith(mark)) return known.replace(/^:(?=key:)/, '');
  return known.slice(known.indexOf(':', mark.length) + 1);
}
