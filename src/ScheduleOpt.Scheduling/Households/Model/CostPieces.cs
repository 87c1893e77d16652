namespace ScheduleOpt.Scheduling.Households.Model;

/// <summary>A cost that is linear in pieces of a quantity x from 0 up: in a piece, Fixed + Slope * x. [currency]</summary>
internal sealed record CostPieces(IReadOnlyList<CostPiece> Pieces)
{
    // By so much a quantity is kept off an edge at which the cost jumps, so that rounding can't put it on the other side. [kWh]
    private const double OffJump = 1e-5;
    private const double Same = 1e-9;

    /// <summary>Whether more of the quantity never gets cheaper: continuous, and slopes rise.</summary>
    public bool IsConvex
    {
        get
        {
            for (var j = 1; j < Pieces.Count; j++)
            {
                if (Pieces[j].Slope < Pieces[j - 1].Slope - Same || Math.Abs(Pieces[j].At(Pieces[j].From) - Pieces[j - 1].At(Pieces[j].From)) > 1e-7)
                {
                    return false;
                }
            }

            return true;
        }
    }

    /// <summary>Whether it costs nothing whatever the quantity.</summary>
    public bool IsNothing => Pieces.All(p => Math.Abs(p.Fixed) < Same && Math.Abs(p.Slope) < Same);

    /// <summary>The pieces of a marginal price that changes at edges, from a quantity on.</summary>
    /// <param name="from">The quantity that is there already; x counts from it.</param>
    /// <param name="most">The most that x can be.</param>
    /// <param name="edges">Upper edge and price of each block; the last without an edge.</param>
    /// <param name="counted">The price per unit that is counted elsewhere.</param>
    public static CostPieces OfMarginal(double from, double most, IEnumerable<(double UpTo, double Price)> edges, double counted)
    {
        var pieces = new List<CostPiece>();
        var (at, cost) = (0.0, 0.0);
        foreach (var (upTo, price) in edges)
        {
            var to = Math.Min(upTo - from, most);
            if (upTo <= from || (to <= at && pieces.Count > 0))
            {
                continue;
            }

            var slope = price - counted;
            pieces.Add(new(at, to, cost - (slope * at), slope));
            cost += slope * (to - at);
            at = to;
            if (at >= most)
            {
                break;
            }
        }

        return new(pieces);
    }

    /// <summary>Pieces between jumps: each with its upper edge (included), fixed part and slope.</summary>
    public static CostPieces OfJumps(double from, double most, IEnumerable<(double UpTo, double Fixed, double Slope)> spans)
    {
        var pieces = new List<CostPiece>();
        var at = 0.0;
        foreach (var (upTo, fixedPart, slope) in spans)
        {
            var edge = upTo - from;
            if (edge < 0 || (pieces.Count > 0 && at > most))
            {
                continue;
            }

            var to = edge >= most ? most : Math.Max(at, edge - OffJump);
            pieces.Add(new(at, Math.Max(at, to), fixedPart, slope));
            at = edge + OffJump;
        }

        return new(pieces);
    }
}

/// <summary>One piece. At its edges x is included.</summary>
internal readonly record struct CostPiece(double From, double To, double Fixed, double Slope)
{
    public double At(double x) => Fixed + (Slope * x);
}
