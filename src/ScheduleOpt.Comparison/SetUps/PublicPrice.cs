namespace ScheduleOpt.Comparison.SetUps;

/// <summary>What a public charging place asks for, and what going there costs in time.</summary>
/// <remarks>Components as in the open charge-point interface's Tariff 2.3.0 (FLAT, ENERGY, TIME) with a least price. The session's total is
/// rounded once, half up, to a hundredth: that standard leaves rounding to law and contract.</remarks>
public sealed record PublicPrice
{
    private const decimal MostPrice = 1000;

    /// <summary>For each session. [currency]</summary>
    public decimal PerSession { get; init; }

    /// <summary>For energy at the public meter. [currency/kWh]</summary>
    public decimal PerKwh { get; init; }

    /// <summary>For time spent charging. [currency/min]</summary>
    public decimal PerMinute { get; init; }

    /// <summary>The least that a session costs; none: no least. [currency]</summary>
    public decimal? LeastPerSession { get; init; }

    /// <summary>Minutes lost for each session by going there and waiting; default 0. [min]</summary>
    public decimal DetourMinutes { get; init; }

    /// <summary>What the household says an hour of its time is worth; none: time is shown in hours and never in money. [currency/h]</summary>
    public decimal? TimeValuePerHour { get; init; }

    /// <summary>Every contradiction, as a sentence; empty for a price that can be used.</summary>
    public IReadOnlyList<string> Contradictions()
    {
        var found = new List<string>();
        foreach (var (name, value) in new[]
        {
            ("price per session", PerSession), ("price per kWh", PerKwh), ("price per minute", PerMinute), ("least price", LeastPerSession ?? 0),
            ("detour in minutes", DetourMinutes), ("value of an hour", TimeValuePerHour ?? 0),
        })
        {
            if (value is < 0 or > MostPrice)
            {
                found.Add($"Public charging: the {name} must be 0 to 1000.");
            }
        }

        return found;
    }

    /// <summary>What one session costs.</summary>
    /// <param name="meterKwh">Energy at the public meter; zero or more. [kWh]</param>
    /// <param name="powerKw">Mean power at the public meter over the session; above 0. [kW]</param>
    /// <exception cref="ArgumentOutOfRangeException">An energy below zero or a power not above zero, or not finite.</exception>
    public PublicSession Session(double meterKwh, double powerKw)
    {
        if (!double.IsFinite(meterKwh) || meterKwh < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(meterKwh), meterKwh, "Energy must be zero or more and finite.");
        }

        if (!double.IsFinite(powerKw) || powerKw <= 0)
        {
            throw new ArgumentOutOfRangeException(nameof(powerKw), powerKw, "Power must be above zero and finite.");
        }

        return Session((decimal)meterKwh, (decimal)(60 * meterKwh / powerKw));
    }

    private PublicSession Session(decimal meterKwh, decimal minutes)
    {
        var price = PerSession + (PerKwh * Math.Round(meterKwh, 6)) + (PerMinute * Math.Round(minutes, 6));
        var paid = Math.Round(Math.Max(price, LeastPerSession ?? 0), 2, MidpointRounding.AwayFromZero);
        return new PublicSession((double)meterKwh, (double)minutes, paid, (double)DetourMinutes);
    }
}
