/** A scanner of markup for tests: just enough to count tags, read attributes and find what does not close. */

export interface Tag {
  readonly name: string
  readonly attributes: ReadonlyMap<string, string>
}

const TAG = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(\/?)>/g
const VOID = new Set(['meta', 'link', 'input', 'br', 'hr', 'img'])

export function tagsOf(markup: string): Tag[] {
  return [...markup.matchAll(TAG)].flatMap((match) =>
    match[1] === '/' ? [] : [{ name: match[2] ?? '', attributes: attributesOf(match[3] ?? '') }],
  )
}

function attributesOf(text: string): Map<string, string> {
  return new Map(
    [...text.matchAll(/([\w:-]+)(?:="([^"]*)")?/g)].map((match) => [match[1] ?? '', match[2] ?? '']),
  )
}

/** The first tag that is not closed, or closed without being open; null where all is well. */
export function firstUnbalanced(markup: string): string | null {
  const open: string[] = []
  const plain = markup.replace(/<!doctype html>/i, '').replace(/<style>[\s\S]*?<\/style>/g, '')
  for (const match of plain.matchAll(TAG)) {
    const [whole, closing, name = '', , selfClosing] = match
    if (selfClosing === '/' || VOID.has(name)) continue
    if (closing !== '/') open.push(name)
    else if (open.pop() !== name) return whole
  }
  // What looks like a tag and was not read as one is broken, too.
  const unread = /<(?!\/?[a-zA-Z])/.exec(plain)
  return unread === null ? (open.at(-1) ?? null) : plain.slice(unread.index, unread.index + 40)
}

export function duplicateIds(markup: string): string[] {
  const ids = tagsOf(markup).flatMap((tag) => tag.attributes.get('id') ?? [])
  return [...new Set(ids.filter((id, index) => ids.indexOf(id) !== index))]
}

/** Ids that are pointed at, by `href="#…"`, `url(#…)`, `aria-…` or `for`, and exist nowhere. */
export function danglingReferences(markup: string): string[] {
  const tags = tagsOf(markup)
  const ids = new Set(tags.flatMap((tag) => tag.attributes.get('id') ?? []))
  const wanted = tags.flatMap(({ attributes }) => [
    ...['aria-labelledby', 'aria-describedby', 'for'].flatMap(
      (name) => attributes.get(name)?.split(' ') ?? [],
    ),
    ...(/^#(.+)$/.exec(attributes.get('href') ?? '')?.slice(1) ?? []),
    ...[...attributes.values()].flatMap((value) => /^url\(#([^)]+)\)$/.exec(value)?.[1] ?? []),
  ])
  return [...new Set(wanted.filter((id) => !ids.has(id)))]
}

/** Text between tags, entities turned back. */
export function textOf(markup: string): string {
  return markup
    .replace(/<style>[\s\S]*?<\/style>/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#x27;', "'")
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&#x3D;', '=')
    .replaceAll('&amp;', '&')
    .replaceAll('\u00a0', ' ')
    .replace(/\s+/g, ' ')
}

/** Number of an attribute. */
export function numberOf(tag: Tag | undefined, name: string): number {
  return Number(tag?.attributes.get(name) ?? NaN)
}
