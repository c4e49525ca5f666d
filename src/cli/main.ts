#!/usr/bin/env node
import { EXIT } from './exitCode.ts'
import { runProgram } from './program.ts'
import { processShell } from './shell.ts'

process.stdout.on('error', (error: Error) => {
  const closed = 'code' in error && error.code === 'EPIPE'
  process.stderr.write(
    `narrows: ${closed ? 'the reader of standard output stopped reading' : error.message}\n`,
  )
  process.exit(EXIT.badInput)
})

process.exitCode = await runProgram(process.argv.slice(2), processShell())
