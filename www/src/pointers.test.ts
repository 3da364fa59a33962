import { describe, expect, it } from 'vitest'
import { pointerInput, wheelTurn } from './pointers'

const wheel = (change: Partial<WheelEvent>) =>
  wheelTurn({ deltaX: 0, deltaY: 0, deltaMode: 0, ctrlKey: false, shiftKey: false, ...change })

describe('the wheel', () => {
  it('comes nearer when turned away, by the same factor either way', () => {
    const near = wheel({ deltaY: -100 }).zoom
    expect(near).toBeGreaterThan(1.1)
    expect(near * wheel({ deltaY: 100 }).zoom).toBeCloseTo(1, 12)
  })

  it('counts lines as pixels', () => {
    expect(wheel({ deltaY: 3, deltaMode: 1 }).zoom).toBeCloseTo(wheel({ deltaY: 48 }).zoom, 12)
  })

  it('pans sideways with Shift, and with a touchpad', () => {
    expect(wheel({ deltaY: 40, shiftKey: true })).toEqual({ zoom: 1, pan: -40 })
    expect(wheel({ deltaX: 30, deltaY: 2 })).toEqual({ zoom: 1, pan: -30 })
  })

  it('takes a pinch for more than the same turn of a wheel', () => {
    expect(wheel({ deltaY: -5, ctrlKey: true }).zoom).toBeGreaterThan(wheel({ deltaY: -5 }).zoom)
  })
})

it('counts a pointer from the canvas’s corner', () => {
  const event = {
    pointerId: 7,
    pointerType: 'touch',
    clientX: 120,
    clientY: 90,
    button: 0,
    shiftKey: true,
    ctrlKey: false,
    metaKey: true,
    altKey: false,
  } as PointerEvent
  expect(pointerInput(event, 'down', { left: 20, top: 40 } as DOMRect)).toEqual({
    phase: 'down',
    id: 7,
    x: 100,
    y: 50,
    kind: 'touch',
    button: 0,
    shift: true,
    ctrl: true,
    alt: false,
  })
})
