/** What is wrong with what was typed, each as its sentence. */
export const FaultList = ({ faults }: { readonly faults: readonly string[] }) => (
  <ul className="said bad upkeep-faults" role="status">
    {faults.map((f) => (
      <li key={f}>{f}</li>
    ))}
  </ul>
)
