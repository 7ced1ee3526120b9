import { describe, expect, test } from 'vitest'
import { outsideReach, pageFaults } from './page-check.ts'

describe('the check of a page finds', () => {
  test.each([
    ['<p>a<b>c</p></b>', '</p> closes <b>'],
    ['<p>a', '<p> is not closed'],
    ['<p>a < b</p>', 'a tag is cut short'],
    ['<p title="a>b"></p><', 'a tag is cut short'],
    ['<h1>a</h1><h3>b</h3>', 'h3 follows h1'],
    ['<p id="x"></p><p id="x"></p>', 'id x is used twice'],
    ['<a href="#y">b</a>', 'nothing has the id y'],
  ])('%s', (page, fault) => expect(pageFaults(page).join('\n')).toContain(fault))

  test('nothing in a page that is right', () =>
    expect(pageFaults('<h1>a</h1><svg><path d="M0 0"/></svg><h2 id="x">b</h2><br><a href="#x">c</a>')).toEqual([]))

  test.each([
    '<script>',
    '<a href="https://a.example">',
    '<img src="a.png">',
    '<style>a{b:url(c)}</style>',
    '<p onclick="x">',
  ])('reach outside in %s', (page) => expect(outsideReach(page)).not.toEqual([]))

  test('none in a link within the page', () => expect(outsideReach('<a href="#x">y</a>')).toEqual([]))
})
