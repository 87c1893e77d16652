namespace ScheduleOpt.Tariffs.Charges;

/// <summary>How the amounts of a bill are rounded.</summary>
/// <param name="Each">What is rounded.</param>
/// <param name="Mode">Where a half goes.</param>
/// <param name="Decimals">Decimal places, 0 to 4.</param>
public sealed record Rounding(RoundingScope Each, RoundingMode Mode, int Decimals = 2)
{
    /// <summary>No rounding at all: for differences between bills.</summary>
    public static Rounding None { get; } = new(RoundingScope.Nothing, RoundingMode.HalfUp);

    /// <summary>An amount as it stands on a line.</summary>
    internal decimal Line(decimal amount) => Each == RoundingScope.Line ? Round(amount) : amount;

    /// <summary>The total of a billing period.</summary>
    internal decimal Total(decimal amount) => Each == RoundingScope.Bill ? Round(amount) : amount;

    private decimal Round(decimal amount) =>
        decimal.Round(amount, Decimals, Mode == RoundingMode.HalfUp ? MidpointRounding.AwayFromZero : MidpointRounding.ToEven);
}

/// <summary>What is rounded.</summary>
public enum RoundingScope
{
    /// <summary>Nothing.</summary>
    Nothing,

    /// <summary>Each line; taxes are taken on the rounded lines.</summary>
    Line,

    /// <summary>The total of each billing period; what it adds or takes is a line of its own.</summary>
    Bill,
}

/// <summary>Where a half goes.</summary>
public enum RoundingMode
{
    /// <summary>Away from zero, as most bills do.</summary>
    HalfUp,

    /// <summary>To the even neighbour.</summary>
    HalfEven,
}
