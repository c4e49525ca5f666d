import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Handlebars from 'handlebars'

/** The views of `views/`, compiled; the one place where the report touches files. */
export interface Views {
  /** Throws where the view asks for anything that its model does not hold. */
  readonly render: (view: string, model: object) => string
  readonly names: readonly string[]
  /** A stylesheet of `views/assets`, by its name without ending. */
  readonly stylesheet: (name: string) => string | undefined
}

/** Stylesheets of the report that stands alone, in their order. */
const INLINE_STYLES = ['base', 'report'] as const

/** Reads and compiles every template and stylesheet below the folder. */
export function loadViews(folder: string = viewsFolder()): Views {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /\.(hbs|css)$/.test(name),
  )
  return compileViews(
    new Map(names.map((name) => [name.replaceAll('\\', '/'), readFileSync(join(folder, name), 'utf8')])),
  )
}

/**
 * Views from their texts by file name. A stylesheet becomes a partial as well, so that a page that stands alone can
 * carry it.
 */
export function compileViews(texts: ReadonlyMap<string, string>): Views {
  const engine = Handlebars.create()
  throwOnUndefined(engine)
  const styles = new Map<string, string>()
  const compiled = new Map<string, Handlebars.TemplateDelegate>()
  for (const [file, text] of texts) {
    const name = file.replace(/\.[a-z]+$/, '')
    if (file.endsWith('.css')) {
      styles.set(name.replace(/^assets\//, ''), text)
      engine.registerPartial(name, text)
    } else {
      // Parsed here and now, so that a slip of syntax shows at start and not at first use.
      const template = engine.compile(engine.parse(text), { strict: true, knownHelpersOnly: true })
      compiled.set(name, template)
      engine.registerPartial(name, template)
    }
  }
  return {
    names: [...compiled.keys()],
    stylesheet: (name) => styles.get(name),
    render: (view, model) => {
      const template = compiled.get(view)
      if (template === undefined) throw new RangeError(`there is no view ${view}`)
      return template(model)
    },
  }
}

let loaded: Views | undefined

/** The project's own views, read once. */
export function views(): Views {
  loaded ??= loadViews()
  return loaded
}

/** What a content security policy wants to know of the styles that a page alone carries with it. */
export function inlineStyleHash({ stylesheet }: Views): string {
  const css = INLINE_STYLES.map((name) => stylesheet(name) ?? '').join('')
  return `sha256-${createHash('sha256').update(css).digest('base64')}`
}

/** `strict` does not cover the block helpers: a misspelt name there would print nothing, without a word. */
function throwOnUndefined(engine: typeof Handlebars): void {
  for (const name of ['if', 'unless', 'each', 'with'] as const) {
    const helper = engine.helpers[name]
    if (helper === undefined) throw new RangeError(`the template engine has no helper ${name}`)
    engine.registerHelper(name, function (this: unknown, value: unknown, options: Handlebars.HelperOptions) {
      if (value === undefined)
        throw new RangeError(`{{#${name}}} was given a name that the model does not hold`)
      return helper.call(this, value, options) as string
    })
  }
}

/** `views/` beside `src/`, or beside the folder of a bundle: the nearest one upwards. */
function viewsFolder(): string {
  for (const up of ['..', '../..', '../../..']) {
    const folder = join(import.meta.dirname, up, 'views')
    if (existsSync(folder)) return folder
  }
  throw new Error('the folder views/ is missing beside the program')
}
