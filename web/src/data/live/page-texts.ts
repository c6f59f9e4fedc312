/** What a page says, in the language, units and zone of whoever reads. Findings have their own texts: `live/use-say.ts`. */
import type { ComponentChildren } from 'preact';
import type { formatQuantity, Reader } from '../../../../shared/messages/format.ts';
import { namedIn } from '../../../../shared/messages/nameless.ts';
import { type PageTexts, writeCount, writePage } from '../../../../shared/messages/page-text.ts';
import type { NoParams, Tag } from '../../../../shared/messages/param-types.ts';
import { useMessageReader } from './use-say.ts';

/** With tags as functions of what stands in them. */
type Asked<Params> = {
  readonly [Name in keyof Params]: Params[Name] extends Tag
    ? (inner: ComponentChildren) => ComponentChildren
    : Params[Name];
};
type Rest<Params> = NoParams extends Params ? [] : [params: Asked<Params>];

export interface PageWords<All> {
  /** @example text('page-home.lay-another') */
  text<Code extends keyof All>(code: Code, ...params: Rest<All[Code]>): string;
  /** The same with elements where the text has tags. @example rich('page-home.unclaimed', { link: (inner) => <a href="/probes">{inner}</a> }) */
  rich<Code extends keyof All>(code: Code, ...params: Rest<All[Code]>): ComponentChildren;
}

/**
 * @param texts Of the topic of this page.
 * @param siteId Whose zone moments are shown in, where the person wants that.
 * @param format `formatQuantity`, for texts with quantities: the first page has none, and is spared it.
 */
export function usePageTexts<All>(
  texts: PageTexts<All>,
  format?: typeof formatQuantity,
  siteId?: string,
): PageWords<All> {
  return pageWords(texts, useMessageReader(siteId), format);
}

export function pageWords<All>(texts: PageTexts<All>, reader: Reader, format?: typeof formatQuantity): PageWords<All> {
  const { language } = reader;
  const write = (code: keyof All, params: object = {}) =>
    writePage<ComponentChildren>(texts[code], params as Record<string, unknown>, {
      language,
      value: (name, value) => {
        if (typeof value === 'string') return namedIn(name, value);
        const shown = format?.(name, value as number, reader);
        if (shown !== undefined) return shown;
        if (name.endsWith('Count')) return writeCount(value as number, language);
        throw new RangeError(`Cannot show {${name}} as its page must bring formatQuantity, or a text`);
      },
      tag: (wrap, inner) => (wrap as (inner: ComponentChildren) => ComponentChildren)([...inner]),
    });
  return {
    text: (code, ...[params]) => write(code, params).join(''),
    rich: (code, ...[params]) => write(code, params),
  };
}
