/** Whoever asks, as somebody who can be notified. A program with the server's own token speaks for the server. */
import type { FastifyRequest } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { type KnownPerson, type Recipients, serverPerson } from '../notify/people.ts';
import { Refusal } from '../refusal.ts';

export async function findRecipient(
  people: Pick<Recipients, 'known'>,
  { person }: FastifyRequest,
): Promise<KnownPerson | undefined> {
  const known = await people.known();
  return known.find(({ id }) => id === person?.id) ?? known.find(({ id }) => id === serverPerson.id);
}

/** @throws {Refusal} 409 when the request stands for no person. */
export async function recipientAsking(
  people: Pick<Recipients, 'known'>,
  request: FastifyRequest,
): Promise<KnownPerson> {
  const person = await findRecipient(people, request);
  if (!person) throw new Refusal(409, message('problem.token-stands-for-nobody'));
  return person;
}
