/** What is wrong with the fields of a request, for an answer that names each. */
import { type FieldIssue, fieldFault } from '../shared/messages/field-fault.ts';
import { type Message, message, paragraph } from '../shared/messages/message.ts';

export interface FieldProblem {
  /** JSON Pointer (RFC 6901). */
  readonly pointer: string;
  readonly said: Message;
}

/** @param issue As a zod schema found it. */
export function fieldProblem(issue: FieldIssue): FieldProblem {
  return { pointer: `/${issue.path.map(String).join('/')}`, said: fieldFault(issue) };
}

/** All of them as one text. @param where What the fields are parts of. */
export function saidOfFields(fields: readonly FieldProblem[], where: 'address' | 'headers' | 'other'): Message {
  return paragraph(...fields.map((field) => inItsField(field, where)));
}

/** A page shows it beside the field; elsewhere the text names which one. @example "recipe.depthM: Must be at least 2 cm." */
function inItsField({ pointer, said }: FieldProblem, where: 'address' | 'headers' | 'other'): Message {
  const fieldName = pointer.split('/').filter(Boolean).join('.');
  return fieldName === '' ? said : message('problem.in-field', { where, fieldName, faultPart: said });
}
