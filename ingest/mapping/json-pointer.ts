/** Finds a value inside a JSON document (RFC 6901). */
import { type Message, message } from '../../shared/messages/message.ts';
import { namesIn } from '../../shared/pointer-names.ts';

/** Why this is no JSON Pointer, or undefined when it is one (section 3). */
export function pointerProblem(pointer: string): Message | undefined {
  if (pointer !== '' && !pointer.startsWith('/')) return message('field.pointer.slash');
  if (/~(?![01])/.test(pointer)) return message('field.pointer.tilde');
  return undefined;
}

/** @returns The value, or undefined when the document has no such place (sections 4 and 7). */
export function valueAt(document: unknown, pointer: string): unknown {
  let here = document;
  for (const token of namesIn(pointer)) {
    if (Array.isArray(here)) {
      // An index has no leading zero; "-" names the place after the last, where nothing is.
      here = /^(0|[1-9]\d*)$/.test(token) ? here[Number(token)] : undefined;
    } else if (typeof here === 'object' && here !== null && Object.hasOwn(here, token)) {
      here = (here as Record<string, unknown>)[token];
    } else {
      return undefined;
    }
  }
  return here;
}
