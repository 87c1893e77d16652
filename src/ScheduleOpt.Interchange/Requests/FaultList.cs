namespace ScheduleOpt.Interchange.Requests;

/// <summary>The faults of one document as they are found; at most <see cref="Most"/> are kept, the rest are counted.</summary>
internal sealed class FaultList
{
    /// <summary>Faults beyond this number help nobody and would make the answer larger than the question.</summary>
    public const int Most = 100;

    private readonly List<Fault> kept = [];

    /// <summary>Number of faults found so far, dropped ones included.</summary>
    public int Count { get; private set; }

    /// <summary>Notes a fault.</summary>
    public void Add(Fault fault)
    {
        Count++;
        if (kept.Count < Most)
        {
            kept.Add(fault);
        }
    }

    /// <summary>Notes a fault.</summary>
    public void Add(string pointer, string rule, string value = "") => Add(new Fault(pointer, rule, value));

    /// <summary>Notes faults whose pointers are complete.</summary>
    public void AddAll(IEnumerable<Fault> faults)
    {
        foreach (var fault in faults)
        {
            Add(fault with { Value = JsonField.Shortened(fault.Value) });
        }
    }

    /// <summary>Notes the faults of a document that stands inside this one and does not know where.</summary>
    /// <param name="pointer">Where the inner document stands.</param>
    /// <param name="inner">Its faults; their pointers are continued from <paramref name="pointer"/>.</param>
    public void AddInner(string pointer, IEnumerable<Fault> inner)
    {
        foreach (var fault in inner)
        {
            Add(fault with { Pointer = pointer + fault.Pointer.TrimStart('#'), Value = JsonField.Shortened(fault.Value) });
        }
    }

    /// <summary>Every fault kept, and a last one that counts the others.</summary>
    public IReadOnlyList<Fault> ToList() =>
        Count <= kept.Count ? kept : [.. kept, new Fault("#", $"{Count - kept.Count} further faults are not listed.")];
}
