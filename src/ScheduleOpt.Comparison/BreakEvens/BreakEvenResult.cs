using System.Globalization;
using ScheduleOpt.Core;

namespace ScheduleOpt.Comparison.BreakEvens;

/// <summary>Where the answer between two alternatives changes along an axis.</summary>
/// <param name="Axis">The axis.</param>
/// <param name="Found">The break-evens, in order; empty where the answer does not change.</param>
/// <param name="AtLow">The cheaper one at the axis's low end.</param>
/// <param name="AtHigh">The cheaper one at its high end.</param>
/// <param name="Runs">How many places were worked out.</param>
public sealed record BreakEvenResult(BreakEvenAxis Axis, IReadOnlyList<BreakEven> Found, Cheaper AtLow, Cheaper AtHigh, int Runs)
{
    /// <summary>In one sentence.</summary>
    public string Wording => Found.Count == 0
        ? Invariant($"{Axis.Name}: no break-even in range ({Number(Axis.Low)} to {Number(Axis.High)} {Unit}); {Said(AtLow)} throughout.")
        : Invariant($"{Axis.Name}: the answer changes at {string.Join(", ", Found.Select(f => Number(f.At)))} {Unit}.");

    /// <summary>The same with distances in miles; other axes as they are.</summary>
    public BreakEvenResult InMiles() => Axis.Unit != BreakEvenAxis.DistancePerYear.Unit
        ? this
        : this with
        {
            Axis = Axis with
            {
                Unit = "mi", Low = Distance.FromKilometres(Axis.Low).Miles, High = Distance.FromKilometres(Axis.High).Miles, Tolerance = Distance.FromKilometres(Axis.Tolerance).Miles,
            },
            Found = [.. Found.Select(f => f with { From = Distance.FromKilometres(f.From).Miles, Until = Distance.FromKilometres(f.Until).Miles })],
        };

    private bool IsShare => Axis.Unit == BreakEvenAxis.OffPeakShare.Unit;

    // People read shares in per cent.
    private string Unit => IsShare ? "%" : Axis.Unit;

    // No more digits than the search looked for.
    private string Number(double at)
    {
        var factor = IsShare ? 100 : 1;
        return Math.Round(factor * at, Math.Clamp((int)Math.Ceiling(-Math.Log10(factor * Axis.Tolerance)), 0, 10)).ToString(CultureInfo.InvariantCulture);
    }

    private static string Said(Cheaper cheaper) => cheaper switch
    {
        Cheaper.First => "the first costs less",
        Cheaper.Second => "the second costs less",
        _ => "both cost the same",
    };

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
