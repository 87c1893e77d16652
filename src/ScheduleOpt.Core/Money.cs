namespace ScheduleOpt.Core;

/// <summary>An amount of money in one currency.</summary>
/// <param name="Amount">The amount, in units of the currency; may be negative (a credit).</param>
/// <param name="Currency">The ISO 4217 code, three capital letters, such as <c>USD</c>.</param>
public readonly record struct Money(decimal Amount, string Currency)
{
    /// <summary>Adds two amounts of one currency.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator +(Money left, Money right) => new(left.Amount + right.Amount, Same(left, right));

    /// <summary>Takes one amount from another of the same currency.</summary>
    /// <exception cref="InvalidOperationException">The currencies differ.</exception>
    public static Money operator -(Money left, Money right) => new(left.Amount - right.Amount, Same(left, right));

    private static string Same(Money left, Money right) =>
        left.Currency == right.Currency
            ? left.Currency
            : throw new InvalidOperationException($"Amounts in {left.Currency} and {right.Currency} can't be combined.");
}
