/**
 * Writes the published JSON Schema of board descriptions beside this file:
 *
 *     node --import tsx reference/schemas/generateBoard.ts
 */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { boardJsonSchemaText } from '../../src/board/schema/boardJsonSchema.ts'

writeFileSync(join(import.meta.dirname, 'board.schema.json'), boardJsonSchemaText())
