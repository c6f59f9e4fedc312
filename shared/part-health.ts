/** How one part of the server is, in one line that whoever looks after it reads in their own language. */
import { inWords } from './messages/in-words.ts';
import type { Message } from './messages/message.ts';

export interface PartHealth<State extends string = 'ok' | 'degraded' | 'down' | 'off'> {
  readonly state: State;
  readonly detail: string;
  readonly messages: { readonly detail: Message };
}

export function partHealth<State extends string>(state: State, detail: Message): PartHealth<State> {
  return { state, ...inWords({ detail }, 0) };
}
