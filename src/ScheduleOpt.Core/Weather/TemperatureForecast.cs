using NodaTime;

namespace ScheduleOpt.Core.Weather;

/// <summary>Outdoor temperatures, each holding for a span of equal length (an hour as a rule). [degC]</summary>
/// <remarks>Before the first span its value holds, after the last one its value: a forecast that ends early is stretched, and
/// <see cref="Covers"/> tells.</remarks>
public sealed class TemperatureForecast
{
    private readonly double[] celsius;
    private readonly bool holdsForEver;

    /// <summary>Makes a forecast.</summary>
    /// <param name="start">Start of the first span.</param>
    /// <param name="step">Length of each span, above zero.</param>
    /// <param name="celsius">At least one finite value. [degC]</param>
    /// <exception cref="ArgumentException">No value, a value that is not finite, or a step of zero or less.</exception>
    public TemperatureForecast(Instant start, Duration step, IEnumerable<double> celsius)
    {
        this.celsius = [.. celsius];
        if (this.celsius.Length == 0 || !this.celsius.All(double.IsFinite) || step <= Duration.Zero)
        {
            throw new ArgumentException("A forecast needs at least one finite temperature and a step above zero.", nameof(celsius));
        }

        Start = start;
        Step = step;
    }

    private TemperatureForecast(double celsius)
        : this(Instant.FromUnixTimeSeconds(0), Duration.FromHours(1), [celsius]) => holdsForEver = true;

    /// <summary>Start of the first span.</summary>
    public Instant Start { get; }

    /// <summary>Length of each span.</summary>
    public Duration Step { get; }

    /// <summary>End of the last span.</summary>
    public Instant End => Start + (Step * celsius.Length);

    /// <summary>Values in order. [degC]</summary>
    public IReadOnlyList<double> Celsius => celsius;

    /// <summary>The same temperature for ever.</summary>
    public static TemperatureForecast Constant(Temperature temperature) => new(temperature.Celsius);

    /// <summary>The temperature at an instant. [degC]</summary>
    public double At(Instant instant)
    {
        var index = (long)Math.Floor((instant - Start) / Step);
        return celsius[Math.Clamp(index, 0, celsius.Length - 1)];
    }

    /// <summary>Whether every instant of a span has a value of its own; one temperature for ever covers all.</summary>
    public bool Covers(Instant from, Instant until) => holdsForEver || (from >= Start && until <= End);

    /// <summary>The instants inside a span at which the value changes, in order.</summary>
    public IEnumerable<Instant> ChangesWithin(Instant from, Instant until)
    {
        var first = Math.Max(1, (long)Math.Floor((from - Start) / Step));
        for (var i = first; i < celsius.Length; i++)
        {
            var at = Start + (Step * i);
            if (at >= until)
            {
                yield break;
            }

            if (at > from && celsius[i] != celsius[i - 1])
            {
                yield return at;
            }
        }
    }
}
