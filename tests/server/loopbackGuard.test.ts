import { describe, expect, it } from 'vitest'
import { isLoopbackHost } from '../../src/server/loopbackGuard.ts'
import { listen, rawGet } from './listening.ts'

describe('names of this machine', () => {
  it.each([
    'localhost',
    'localhost:8080',
    'LOCALHOST',
    '127.0.0.1',
    '127.0.0.1:80',
    '127.1.2.3',
    '[::1]',
    '[::1]:9',
    'boards.localhost:3000',
  ])('%s is one', (host) => {
    expect(isLoopbackHost(host)).toBe(true)
  })

  it.each([
    undefined,
    '',
    'example.com',
    'localhost.example.com',
    '127.0.0.1.example.com',
    'example.com:80',
    '10.0.0.1',
    '[::2]',
    'localhost:port',
    'a@localhost',
  ])('%s is none', (host) => {
    expect(isLoopbackHost(host)).toBe(false)
  })
})

describe('a request that reaches this machine under a foreign name', () => {
  it('is refused, before any board is read', async () => {
    const site = await listen()
    const answers = [
      await rawGet(site.port, '/boards/small', 'rebound.example.com'),
      await rawGet(site.port, '/boards/small'),
    ]
    await site.close()
    expect(answers.map((answer) => answer.status)).toEqual([403, 200])
    expect(answers[0]?.text).not.toContain('Small board')
  })

  it('passes where the guard is put off', async () => {
    const site = await listen({ guardLoopback: false })
    const answer = await rawGet(site.port, '/help', 'boards.example.com')
    await site.close()
    expect(answer.status).toBe(200)
  })
})
