/** Commands of SPICE that have no place here, and what to do about them. */
const elsewhere: readonly (readonly [commands: string, problem: string, mend: string])[] = [
  [
    '.tran .ac .dc .noise .tf .sens .pz .disto .four .step',
    'asks for an analysis that is not known here',
    'Leave it out: the operating point is computed.',
  ],
  ['.include .inc .lib .endl', 'asks for another file', 'Put the models into this one.'],
  ['.subckt .ends .macro .eom', 'makes a subcircuit, which is not known here', 'Write its elements out.'],
  [
    '.param .params .csparam .func .global .if .else .endif',
    'gives names to values, which is not known here',
    'Write the values out.',
  ],
  ['.control .endc', 'begins a programme, which is not run here', 'Leave it out.'],
  ['.save .print .plot .probe .meas .measure .width', 'asks for output', 'Leave it out: all nodes and parts are told.'],
  ['.nodeset .ic', 'gives voltages to start from, which is not known here', 'Leave it out.'],
]

/** What is wrong with a command that is not known here. */
export function unknownCommand(word: string): { readonly problem: string; readonly mend: string } {
  const found = elsewhere.find(([commands]) => commands.split(' ').includes(word.toLowerCase()))
  if (found !== undefined) return { problem: found[1], mend: found[2] }
  return { problem: 'is not a command that is known here', mend: 'Known: .model, .temp, .options, .op, .end.' }
}
