namespace ScheduleOpt.Comparison.Uncertainty;

/// <summary>One input at a time, low and high, widest first.</summary>
/// <remarks>10 CFR 436.24 asks for such a look where inputs are uncertain. Inputs that move together are not seen by it.</remarks>
/// <param name="Base">All inputs at their middle.</param>
/// <param name="Bars">One an input, by swing, widest first; equal ones in the order given.</param>
public sealed record Tornado(UncertainOutcome Base, IReadOnlyList<TornadoBar> Bars)
{
    /// <summary>Runs it: once at the middle, then twice an input, once where an end equals the middle.</summary>
    /// <param name="inputs">The inputs, names unique.</param>
    /// <param name="run">Works everything out again with the value of each input, by name; exact, not linearised.</param>
    /// <param name="cancellation">Gives up between runs.</param>
    /// <exception cref="ArgumentException">A name that occurs twice, or low, mid and high that are not in order or not finite.</exception>
    public static Tornado Run(
        IReadOnlyList<UncertainInput> inputs,
        Func<IReadOnlyDictionary<string, double>, UncertainOutcome> run,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(run);
        if (inputs.GroupBy(i => i.Name, StringComparer.Ordinal).Any(g => g.Count() > 1)
            || !inputs.All(i => double.IsFinite(i.High - i.Low) && i.Low <= i.Mid && i.Mid <= i.High))
        {
            throw new ArgumentException("Each input needs a name of its own and finite values in the order low, mid, high.", nameof(inputs));
        }

        var middle = inputs.ToDictionary(i => i.Name, i => i.Mid, StringComparer.Ordinal);
        var outcome = run(middle);
        var bars = inputs.Select(i => new TornadoBar(i, With(i, i.Low), With(i, i.High), outcome)).ToArray();
        return new Tornado(outcome, [.. bars.OrderByDescending(b => b.Swing)]);

        UncertainOutcome With(UncertainInput input, double value)
        {
            cancellation.ThrowIfCancellationRequested();
            return value == input.Mid ? outcome : run(new Dictionary<string, double>(middle, StringComparer.Ordinal) { [input.Name] = value });
        }
    }
}
