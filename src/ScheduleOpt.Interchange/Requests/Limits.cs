using System.Globalization;

namespace ScheduleOpt.Interchange.Requests;

/// <summary>The range of a number in a document, with its unit.</summary>
/// <param name="Low">The least value.</param>
/// <param name="High">The greatest value, included.</param>
/// <param name="Unit">The unit, as it is to be written; empty for a plain number.</param>
internal readonly record struct Limits(double Low, double High, string Unit = "")
{
    /// <summary>A fraction.</summary>
    public static Limits Fraction => new(0, 1);

    /// <summary>Outdoor temperatures that a document may hold.</summary>
    public static Limits Celsius => new(-60, 60, "degC");

    /// <summary>The same in degrees Fahrenheit: -60 to 60 degC.</summary>
    public static Limits Fahrenheit => new(-76, 140, "degF");

    /// <summary>Whether the least value itself is refused.</summary>
    public bool LowExcluded { get; init; }

    /// <summary>Whether only whole numbers are accepted.</summary>
    public bool Whole { get; init; }

    /// <summary>Whether a number keeps the rule; NaN and the infinities never do.</summary>
    public bool Hold(double number) =>
        number <= High && (LowExcluded ? number > Low : number >= Low) && (!Whole || number == Math.Floor(number));

    /// <summary>The rule as a sentence.</summary>
    public override string ToString()
    {
        var kind = Whole ? "a whole number" : "a number";
        var low = Low.ToString(CultureInfo.InvariantCulture);
        var high = High.ToString(CultureInfo.InvariantCulture);
        var unit = Unit.Length > 0 ? " " + Unit : "";
        return LowExcluded ? $"Must be {kind} above {low} and at most {high}{unit}." : $"Must be {kind} from {low} to {high}{unit}.";
    }
}
