import type { NextFunction, Request, Response } from 'express'
import { views } from '../report/templates.ts'

/** `/assets/base.css`, from what was read at start: no path reaches the disk. */
export function sendStylesheet(
  request: Request<{ file: string }>,
  response: Response,
  next: NextFunction,
): void {
  const name = /^([a-z]+)\.css$/.exec(request.params.file)?.[1]
  const css = name === undefined ? undefined : views().stylesheet(name)
  if (css === undefined) next()
  else response.type('css').send(css)
}
