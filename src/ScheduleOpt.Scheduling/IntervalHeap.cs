namespace ScheduleOpt.Scheduling;

/// <summary>A queue from which both the cheapest and the dearest entry can be taken, each in logarithmic time.</summary>
/// <remarks>J. van Leeuwen and D. Wood, Interval heaps, The Computer Journal 36 (1993) 209-216. Each node holds a low and a high key; the
/// lows form a min-heap, the highs a max-heap. Entry 2j is the low of node j, entry 2j + 1 its high. Of equal keys the later entry (the larger
/// id) counts as cheaper.</remarks>
internal sealed class IntervalHeap
{
    private (double Key, int Id)[] entries = new (double, int)[64];

    public int Count { get; private set; }

    public (double Key, int Id) Cheapest => entries[0];

    public (double Key, int Id) Dearest => entries[Count == 1 ? 0 : 1];

    public void Add(double key, int id)
    {
        if (Count == entries.Length)
        {
            Array.Resize(ref entries, 2 * entries.Length);
        }

        var at = Count++;
        entries[at] = (key, id);
        if ((at & 1) == 1 && Before(entries[at], entries[at - 1]))
        {
            Swap(at, at - 1);
            at--;
        }

        // An entry alone in its node stands for both ends of it.
        if (at > 1)
        {
            var parent = ParentLow(at);
            if (Before(entries[at], entries[parent]))
            {
                Swap(at, parent);
                SiftUpLow(parent);
            }
            else if (Before(entries[parent + 1], entries[at]))
            {
                Swap(at, parent + 1);
                SiftUpHigh(parent + 1);
            }
        }
    }

    public void RemoveCheapest() => RemoveAt(0);

    public void RemoveDearest() => RemoveAt(Count == 1 ? 0 : 1);

    private static int ParentLow(int at) => (((at >> 1) - 1) >> 1) << 1;

    private void RemoveAt(int at)
    {
        var last = entries[--Count];
        if (at == Count)
        {
            return;
        }

        entries[at] = last;
        if (at == 0)
        {
            SiftDownLow();
        }
        else
        {
            SiftDownHigh();
        }
    }

    private static bool Before((double Key, int Id) a, (double Key, int Id) b) => a.Key < b.Key || (a.Key == b.Key && a.Id > b.Id);

    private void SiftUpLow(int at)
    {
        while (at > 1 && Before(entries[at], entries[ParentLow(at)]))
        {
            Swap(at, ParentLow(at));
            at = ParentLow(at);
        }
    }

    private void SiftUpHigh(int at)
    {
        while (at > 1 && Before(entries[ParentLow(at) + 1], entries[at]))
        {
            Swap(at, ParentLow(at) + 1);
            at = ParentLow(at) + 1;
        }
    }

    private void SiftDownLow()
    {
        var at = 0;
        while (true)
        {
            if (at + 1 < Count && Before(entries[at + 1], entries[at]))
            {
                Swap(at, at + 1);
            }

            var node = at >> 1;
            var child = ((2 * node) + 1) << 1;
            if (child >= Count)
            {
                return;
            }

            if (child + 2 < Count && Before(entries[child + 2], entries[child]))
            {
                child += 2;
            }

            if (!Before(entries[child], entries[at]))
            {
                return;
            }

            Swap(at, child);
            at = child;
        }
    }

    private void SiftDownHigh()
    {
        var at = 1;
        while (true)
        {
            if (at < Count && (at & 1) == 1 && Before(entries[at], entries[at - 1]))
            {
                Swap(at, at - 1);
            }

            var node = at >> 1;
            var child = High(((2 * node) + 1) << 1);
            if (child < 0)
            {
                return;
            }

            var other = High(((2 * node) + 2) << 1);
            if (other >= 0 && Before(entries[child], entries[other]))
            {
                child = other;
            }

            if (!Before(entries[at], entries[child]))
            {
                return;
            }

            Swap(at, child);

            // A node of one entry has its low for a high; it has no children.
            if ((child & 1) == 0)
            {
                return;
            }

            at = child;
        }
    }

    private int High(int low) => low + 1 < Count ? low + 1 : low < Count ? low : -1;

    private void Swap(int a, int b) => (entries[a], entries[b]) = (entries[b], entries[a]);
}
