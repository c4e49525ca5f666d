import { describe, expect, it } from 'vitest'
import { findPartner, polarityByName } from '../../../src/board/nets/pairPartner.ts'

const among =
  (...names: string[]) =>
  (name: string): boolean =>
    names.includes(name)

describe('the partner of a net', () => {
  it.each([
    ['DQS_P', 'DQS_N', '_P / _N at the end'],
    ['usb_d_p', 'usb_d_n', '_P / _N at the end'],
    ['RAM_CK+', 'RAM_CK-', '+ / - at the end'],
    ['D+[3]', 'D-[3]', '+ / - before brackets or a number'],
    ['USB_DP', 'USB_DM', '_DP / _DM or _DN at the end'],
    ['USB_DP', 'USB_DN', '_DP / _DM or _DN at the end'],
    ['CK_T', 'CK_C', '_T / _C at the end'],
    ['CLK_POS', 'CLK_NEG', '_POS / _NEG at the end'],
    ['PCIE_TX_P_0', 'PCIE_TX_N_0', '_P_ / _N_ within'],
    ['TXP', 'TXN', 'P / N at the end'],
    ['RXP0', 'RXN0', 'P / N before a number at the end'],
    ['IO_L9P_T1_DQS_35', 'IO_L9N_T1_DQS_35', 'P / N before _ within'],
    ['MGTPTXP1_216', 'MGTPTXN1_216', 'P / N before a number and _ within'],
    ['PCIE_TX0_P', 'PCIE_TX0_N', '_P / _N at the end'],
  ])('%s is %s, by %s', (positive, negative, basis) => {
    const exists = among(positive, negative)
    expect(findPartner(positive, exists)).toEqual({
      partner: negative,
      polarity: 'positive',
      basis: `by name: ${basis}`,
    })
    expect(findPartner(negative, exists)).toEqual({
      partner: positive,
      polarity: 'negative',
      basis: `by name: ${basis}`,
    })
  })

  it('is none where the name would fit but no such net exists', () => {
    expect(findPartner('DQS_P', among('DQS_P', 'DQS_M'))).toBeNull()
    expect(findPartner('RESET', among('RESET', 'RESEP'))).toBeNull()
  })

  it('is the plainest where several exist', () => {
    expect(findPartner('TXP_P', among('TXP_P', 'TXP_N', 'TXN_P'))?.partner).toBe('TXP_N')
  })

  it('tells polarity of stated partners where their names do', () => {
    expect(polarityByName('LINE_N', 'LINE_P')).toBe('negative')
    expect(polarityByName('ONE', 'OTHER')).toBeNull()
  })
})
