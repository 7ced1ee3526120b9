import {
  Button,
  createTheme,
  type MantineThemeOverride,
  Modal,
  NativeSelect,
  NumberInput,
  Textarea,
  TextInput,
} from '@mantine/core'

const fieldNames = {
  root: 'field',
  label: 'field-label',
  description: 'field-hint',
  error: 'field-fault',
} as const

/**
 * The component library without any of its looks: behaviour and accessibility are its, every rule of style is ours
 * (`book.css`, `form.css`). It writes no style elements, so the page needs no `unsafe-inline`.
 */
export const bookTheme: MantineThemeOverride = createTheme({
  respectReducedMotion: true,
  cursorType: 'pointer',
  components: {
    Button: Button.extend({ defaultProps: { unstyled: true }, classNames: { root: 'button' } }),
    TextInput: TextInput.extend({ defaultProps: { unstyled: true }, classNames: { ...fieldNames, input: 'input' } }),
    NumberInput: NumberInput.extend({
      defaultProps: { unstyled: true, hideControls: true },
      classNames: { ...fieldNames, input: 'input' },
    }),
    Textarea: Textarea.extend({ defaultProps: { unstyled: true }, classNames: { ...fieldNames, input: 'area' } }),
    NativeSelect: NativeSelect.extend({
      defaultProps: { unstyled: true },
      classNames: { ...fieldNames, input: 'select', section: 'gone' },
    }),
    Modal: Modal.extend({
      defaultProps: { unstyled: true, lockScroll: false, transitionProps: { duration: 0 } },
      classNames: { overlay: 'over', content: 'dialog' },
    }),
  },
})
