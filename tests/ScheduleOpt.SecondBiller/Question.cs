using NodaTime;

namespace ScheduleOpt.SecondBiller;

/// <summary>What is to be billed, and everything that is given beside the plan.</summary>
public sealed record Question
{
    public required Instant Start { get; init; }

    public required Duration Interval { get; init; }

    /// <summary>Import of each metering interval [millionths of a kWh].</summary>
    public required long[] Import { get; init; }

    /// <summary>Export of each metering interval [millionths of a kWh]; none: zero.</summary>
    public long[]? Export { get; init; }

    public IReadOnlyList<LocalDate>? ReadingDates { get; init; }

    public IReadOnlyDictionary<string, string> Choices { get; init; } = new Dictionary<string, string>();

    public IReadOnlyList<CalledEvent> Events { get; init; } = [];

    public IReadOnlyDictionary<string, HourlyPrices> Prices { get; init; } = new Dictionary<string, HourlyPrices>();

    public decimal? ServiceKw { get; init; }

    public Carried Carried { get; init; } = new();

    public Instant End => Start + Interval * Import.Length;
}

/// <summary>A called event, on the legal clock.</summary>
public sealed record CalledEvent(string Name, LocalDateTime From, LocalDateTime To, decimal? BaselineKwh = null, decimal AdjustmentKwh = 0);

/// <summary>Prices of equal intervals; none where it is missing.</summary>
public sealed record HourlyPrices(Instant Start, Duration Interval, decimal?[] Values);

/// <summary>The highest kW of a demand charge in a billing period of that billing month.</summary>
public sealed record Peak(string Charge, YearMonth Month, decimal Kw);

/// <summary>What one bill hands to the next.</summary>
public sealed record Carried
{
    public IReadOnlyList<Peak> Peaks { get; init; } = [];

    /// <summary>Banked export by group [millionths of a kWh]; the group of a pool is empty.</summary>
    public IReadOnlyDictionary<string, long> BankedEnergy { get; init; } = new Dictionary<string, long>();

    public decimal BankedMoney { get; init; }

    /// <summary>Import of earlier intervals, netted, up to the start of the series: what baselines look back on.</summary>
    public IReadOnlyList<PastUse> Past { get; init; } = [];
}

/// <summary>Import of one earlier metering interval.</summary>
public sealed record PastUse(Instant Start, Instant End, long Energy);
