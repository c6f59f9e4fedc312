/**
 * The built pages, each of their addresses answered by the one document that draws them. It never answers an unknown
 * /api/ address with a page, or lets a browser keep an old document.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { sendProblem } from './problem.ts';

const dayS = 86_400;

/** @param pagesDir Folder of the built pages; undefined when only the API answers. */
export async function registerPages(app: FastifyInstance, pagesDir: string | undefined): Promise<void> {
  const sendDocument = pagesDir === undefined ? undefined : await registerFiles(app, pagesDir);
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split('?', 1)[0] ?? '';
    const isPage = request.method === 'GET' && !/^\/(api|metrics)(\/|$)/.test(path) && !/\.[a-z0-9]+$/i.test(path);
    if (isPage && sendDocument) return sendDocument(reply);
    return sendProblem(
      reply,
      404,
      message('problem.no-such-address', { methodText: request.method, addressText: path }),
    );
  });
}

async function registerFiles(app: FastifyInstance, pagesDir: string): Promise<(reply: FastifyReply) => FastifyReply> {
  const document = await readFile(join(pagesDir, 'index.html'), 'utf8');
  const sendDocument = (reply: FastifyReply) =>
    reply.type('text/html; charset=utf-8').header('Cache-Control', 'no-cache').send(document);

  await app.register(async (files) => {
    files.addHook('onRoute', (route) => {
      route.config = { ...route.config, access: 'open' };
      route.schema = { ...route.schema, hide: true };
    });
    const shared = { root: pagesDir, index: false, cacheControl: false } as const; // its own header would replace ours
    await files.register(fastifyStatic, {
      ...shared,
      wildcard: false,
      globIgnore: ['assets/**'],
      setHeaders: (reply) => reply.setHeader('Cache-Control', 'no-cache'),
    });
    // One route for all of them: there are a hundred, and each route of its own takes a dozen kilobytes.
    await files.register(fastifyStatic, {
      ...shared,
      root: join(pagesDir, 'assets'),
      prefix: '/assets/',
      decorateReply: false,
      // A digest stands in their names, so they never change.
      setHeaders: (reply) => reply.setHeader('Cache-Control', `public, max-age=${365 * dayS}, immutable`),
    });
  });
  app.get('/', { config: { access: 'open' }, schema: { hide: true } }, (_request, reply) => sendDocument(reply));
  return sendDocument;
}
