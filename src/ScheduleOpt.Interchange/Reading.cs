namespace ScheduleOpt.Interchange;

/// <summary>One thing that is wrong with a document.</summary>
/// <param name="Pointer">Where: a JSON pointer in fragment form, such as <c>#/vehicle/usableEnergyKwh</c>.</param>
/// <param name="Rule">What must hold, with units and limits, as a sentence.</param>
/// <param name="Value">The value found, shortened; empty where there is none.</param>
/// <param name="Line">Line of the text it stands in, from 1; none where the text has no lines of its own.</param>
public sealed record Fault(string Pointer, string Rule, string Value = "", int? Line = null)
{
    /// <summary>The fault as one sentence for people.</summary>
    public override string ToString() =>
        $"{(Line is { } line ? $"line {line}: " : "")}{Pointer}: {Rule}{(Value.Length > 0 ? $" Found: {Value}" : "")}";
}

/// <summary>What came of reading a document: a value, or every fault found.</summary>
/// <typeparam name="T">What is read.</typeparam>
public sealed class Reading<T>
    where T : class
{
    private readonly T? value;

    private Reading(T? value, IReadOnlyList<Fault> faults) => (this.value, Faults) = (value, faults);

    /// <summary>Every fault; empty where a value was read.</summary>
    public IReadOnlyList<Fault> Faults { get; }

    /// <summary>Whether a value was read.</summary>
    public bool IsRead => value is not null;

    /// <summary>The value.</summary>
    /// <exception cref="InvalidOperationException">There are faults instead.</exception>
    public T Value => value ?? throw new InvalidOperationException($"Nothing was read: {string.Join("; ", Faults)}");

    /// <summary>A value without faults.</summary>
    public static implicit operator Reading<T>(T value) => new(value, []);

    /// <summary>At least one fault.</summary>
    public static Reading<T> Refused(IReadOnlyList<Fault> faults) =>
        faults.Count > 0 ? new(null, faults) : throw new ArgumentException("A refusal names at least one fault.", nameof(faults));

    /// <summary>One fault.</summary>
    public static Reading<T> Refused(Fault fault) => new(null, [fault]);
}
