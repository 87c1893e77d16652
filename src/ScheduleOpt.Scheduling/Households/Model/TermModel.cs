using NodaTime;

namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>A term of the bill as the programme takes it: a quantity and what it costs in pieces.</summary>
/// <param name="Pieces">Cost by quantity above what is there without charging.</param>
/// <param name="BillingPeriod">Its billing period.</param>
internal abstract record TermModel(CostPieces Pieces, Interval BillingPeriod);

/// <summary>The quantity is use: imported energy of some intervals above that without charging. [kWh]</summary>
internal sealed record UseModel(CostPieces Pieces, Interval BillingPeriod, bool[] Counts) : TermModel(Pieces, BillingPeriod);

/// <summary>The quantity is the highest average of import above what is billed anyway. [kW]</summary>
internal sealed record PeakModel(CostPieces Pieces, Interval BillingPeriod, double BilledKw, IReadOnlyList<DemandWindow> Windows, bool Sliding)
    : TermModel(Pieces, BillingPeriod);

/// <summary>The least that a billing period's extra bill can be: max(extra bill, Least) - max(0, Least). [currency]</summary>
internal sealed record LeastBill(Interval BillingPeriod, double Least);
