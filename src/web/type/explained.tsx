import type { TypeDetail } from '#api'

/** What the type number tells by its scheme, and what it does not. */
export function Explained({ detail }: { readonly detail: TypeDetail }) {
  if (detail.explained.length === 0) return null
  return (
    <section className="spread">
      <h2>The number</h2>
      <div className="matter explained">
        {detail.explained.map((e) => (
          <div key={e.name}>
            <h3>
              {e.name}
              {!e.sure && <span className="soft"> (may be another scheme)</span>}
            </h3>
            <ul>
              {e.says.map((s) => (
                <li key={s}>{s}</li>
              ))}
              {e.doesNotSay.map((s) => (
                <li key={s} className="soft">
                  {s}
                </li>
              ))}
            </ul>
            <p className="soft small">{e.source}</p>
          </div>
        ))}
      </div>
    </section>
  )
}
