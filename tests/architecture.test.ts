import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'

const SOURCE = resolve(import.meta.dirname, '../src')

/** Which room may import which. A room is a folder of src/, a sub-folder listed here, or a pipeline file. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  units: [],
  numerics: ['units'],
  charts: ['units'],
  board: ['units'],
  routes: ['units', 'numerics', 'board'],
  'escape/capacity': ['units', 'numerics'],
  // The check of a plan knows nothing of how it was made.
  'escape/clearance': ['units', 'numerics', 'board', 'routes'],
  escape: ['units', 'numerics', 'board', 'routes', 'escape/capacity', 'escape/clearance'],
  section: ['units', 'numerics', 'board', 'routes'],
  'impedance/closedForm': ['units', 'numerics'],
  'impedance/field': ['units', 'numerics', 'section'],
  impedance: ['units', 'numerics', 'board', 'section', 'impedance/closedForm', 'impedance/field'],
  signal: ['units', 'numerics', 'board', 'routes', 'section', 'impedance'],
  tolerance: ['units', 'numerics', 'board', 'section', 'impedance'],
  dielectric: ['units', 'numerics', 'board', 'section', 'impedance'],
  findings: ['units', 'numerics', 'board'],
  pipelines: [
    'units',
    'numerics',
    'board',
    'escape',
    'routes',
    'section',
    'impedance',
    'signal',
    'tolerance',
    'dielectric',
    'findings',
  ],
  report: ['units', 'charts'],
  server: ['units', 'board', 'pipelines', 'report'],
  cli: ['units', 'board', 'pipelines', 'report', 'server'],
}

/** Stages whose types, and only types, a room may name besides. */
const MAY_NAME: Readonly<Record<string, readonly string[]>> = {
  'escape/capacity': ['escape'],
  'escape/clearance': ['escape'],
  impedance: ['routes'],
  'impedance/field': ['impedance'],
  pipelines: ['impedance/field'],
  findings: [
    'escape',
    'routes',
    'section',
    'impedance',
    'impedance/closedForm',
    'signal',
    'tolerance',
    'dielectric',
  ],
  report: [
    'impedance/closedForm',
    'impedance/field',
    'board',
    'escape',
    'routes',
    'section',
    'impedance',
    'signal',
    'tolerance',
    'dielectric',
    'findings',
    'pipelines',
  ],
  server: ['section', 'impedance', 'dielectric'],
  cli: ['section', 'impedance', 'tolerance', 'dielectric', 'escape', 'findings'],
}

interface Import {
  readonly file: string
  readonly from: string
  readonly to: string
  readonly typeOnly: boolean
}

function roomOf(file: string): string {
  const path = relative(SOURCE, file)
  const folder = dirname(path)
  if (folder === '.') return 'pipelines'
  return folder in MAY_IMPORT ? folder : (folder.split('/')[0] ?? folder)
}

const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => join(SOURCE, name))

function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8')
  const found = text.matchAll(
    /(?:import|export)\s+(type\s+)?(?:[\w*{}\s,$]+\s+from\s+)?'(\.[^']+)'|import\('(\.[^']+)'\)/g,
  )
  return [...found].map((match) => ({
    file: relative(SOURCE, file),
    from: roomOf(file),
    to: roomOf(resolve(dirname(file), match[2] ?? match[3] ?? '')),
    typeOnly: match[1] !== undefined,
  }))
}

const imports = files.flatMap(importsOf).filter((line) => line.from !== line.to && !line.to.startsWith('..'))

describe('the rooms of src', () => {
  it('are all in the table', () => {
    expect([...new Set(files.map(roomOf))].filter((room) => !(room in MAY_IMPORT))).toEqual([])
  })

  it('import only what the table allows', () => {
    const wrong = imports.filter(
      ({ from, to, typeOnly }) =>
        !(MAY_IMPORT[from] ?? []).includes(to) && !(typeOnly && (MAY_NAME[from] ?? []).includes(to)),
    )
    expect(wrong.map(({ file, to }) => `${file} imports ${to}`)).toEqual([])
  })

  it('form no circle between rooms', () => {
    const reaches = (from: string, goal: string, seen = new Set<string>()): boolean =>
      (MAY_IMPORT[from] ?? []).some(
        (next) => next === goal || (!seen.has(next) && reaches(next, goal, seen.add(next))),
      )
    expect(Object.keys(MAY_IMPORT).filter((room) => reaches(room, room))).toEqual([])
  })
})
