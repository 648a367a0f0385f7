using FsCheck;
using FsCheck.Fluent;
using RepairShop.Domain.Parts;
using RepairShop.Domain.StripDown;
using Xunit;

namespace RepairShop.Domain.Tests.StripDown;

/// <summary>Whatever is done at the bench and in whatever order, nothing appears and nothing gets lost.</summary>
public sealed class ConservationTests
{
    /// <summary>One deed as four numbers; what they mean depends on what is on the bench by then.</summary>
    private static readonly Arbitrary<int[]> Deeds =
        Gen.Choose(0, 10_000).ArrayOf(4 * 60).ToArbitrary();

    [Fact]
    public void Any_sequence_of_strip_insert_split_join_correct_move_strike_out_refit_replace_return_and_write_off_conserves_every_item()
    {
        var refusals = new HashSet<Type>();
        var done = new HashSet<string>();
        Prop.ForAll(Deeds, numbers =>
        {
            var play = new BenchPlay(refusals, done);
            foreach (var deed in numbers.Chunk(4))
            {
                play.Do(deed[0], deed[1], deed[2], deed[3]);
                play.CheckNothingAppearedOrGotLost();
            }
        }).Check(Config.QuickThrowOnFailure.WithMaxTest(300));
        // The walk really went everywhere: every deed was done at least once and the rules said no in several ways.
        Assert.Equal(12, done.Count);
        Assert.True(refusals.Count >= 5, string.Join(", ", refusals.Select(type => type.Name)));
    }

    /// <summary>The bench beside a second book kept in the plainest way: a list of names in order, and for each how many came out
    /// and how many of them are out.</summary>
    private sealed class BenchPlay(HashSet<Type> refusals, HashSet<string> done)
    {
        private readonly List<StripStep> steps = [];
        private readonly List<Guid> order = [];
        private readonly Dictionary<Guid, (int Removed, int Out)> book = [];

        public void Do(int deed, int which, int count, int more)
        {
            if (steps.Count == 0 || deed % 12 is 0 or 1)
            {
                Strip(deed % 12 == 1 ? which % (steps.Count + 1) : steps.Count, (count % 6) + 1, more);
                return;
            }

            var step = steps[which % steps.Count];
            switch (deed % 12)
            {
                case 2: Split(step, (count % 4) + 1); break;
                case 3: Join(step); break;
                case 4: Correct(step, (count % 6) + 1, more % 3); break;
                case 5: Move(step, more % steps.Count); break;
                case 6: StrikeOut(step); break;
                case 7: Account(step, count, more, new FateFacts(ItemFate.Refitted, ""), "refit"); break;
                case 8: Account(step, count, more, new FateFacts(ItemFate.Replaced, "", null, "New one", Provenance.New), "replace"); break;
                case 9: Account(step, count, more, new FateFacts(ItemFate.WrittenOff, "perished"), "write off"); break;
                case 10: TakeBack(step, more); break;
                default: Account(step, count, more, new FateFacts(ItemFate.Returned, "bag 1"), "return"); break;
            }
        }

        public void CheckNothingAppearedOrGotLost()
        {
            var sorted = steps.OrderBy(step => step.Rank).ThenBy(step => step.Id).Select(step => step.Id).ToList();
            Assert.Equal(order, sorted);
            foreach (var step in steps)
            {
                Assert.Equal(book[step.Id].Removed, Bench.Pieces(step));
                Assert.Equal(book[step.Id].Out, step.Items.Where(lot => lot.Fate == ItemFate.StillOut).Sum(lot => lot.Count));
                Assert.Equal(step.Removed(ItemKind.Part) + step.Removed(ItemKind.Shim), Bench.Pieces(step));
                Assert.All(step.Items, lot => Assert.True(lot.Count > 0 && lot.StepId == step.Id));
            }

            var progress = StripProgress.Of(steps);
            Assert.Equal(progress.Removed, progress.Out + progress.Refitted + progress.Replaced + progress.Returned + progress.WrittenOff);
        }

        private void Strip(int at, int count, int more)
        {
            var step = Bench.Step(Bench.Some($"Thing {steps.Count}", count) with
            {
                ShimPlace = more % 3 == 0 ? "mount" : "",
                ShimCount = more % 3 == 0 ? (more % 4) + 1 : 0,
            });
            Place(step, at);
            steps.Add(step);
            order.Insert(at, step.Id);
            book[step.Id] = (Bench.Pieces(step), Bench.Pieces(step));
            done.Add(at == order.Count - 1 ? "strip" : "insert");
        }

        private void Place(StripStep step, int at)
        {
            var others = steps.Where(other => other != step).OrderBy(other => other.Rank).ThenBy(other => other.Id).ToList();
            if (StripOrder.At([.. others.Select(other => other.Rank)], at) is { } rank)
            {
                step.Rank = rank;
                return;
            }

            var ranks = StripOrder.Spread(others.Count + 1);
            others.Insert(at, step);
            for (var i = 0; i < others.Count; i++)
                others[i].Rank = ranks[i];
        }

        private void Split(StripStep step, int count)
        {
            var split = StepRules.Split(step, count, "Split off", Guid.CreateVersion7());
            if (Refused(split.Failure))
                return;
            var at = order.IndexOf(step.Id) + 1;
            Place(split.Value!, at);
            steps.Add(split.Value!);
            order.Insert(at, split.Value!.Id);
            book[step.Id] = (book[step.Id].Removed - count, book[step.Id].Out - count);
            book[split.Value.Id] = (count, count);
            done.Add("split");
        }

        private void Join(StripStep other)
        {
            if (steps.Find(one => one.Id == other.SplitFromId) is not { } step || Refused(StepRules.Join(step, other).Failure))
                return;
            book[step.Id] = (book[step.Id].Removed + book[other.Id].Removed, book[step.Id].Out + book[other.Id].Out);
            steps.Remove(other);
            order.Remove(other.Id);
            book.Remove(other.Id);
            done.Add("join");
        }

        private void Correct(StripStep step, int count, int shims)
        {
            var before = book[step.Id].Removed;
            var facts = StepFacts.Of(step) with { Count = count, ShimPlace = shims > 0 ? "mount" : "", ShimCount = shims };
            if (Refused(StepRules.Write(step, facts, null).Failure))
                return;
            var change = count + shims - before;
            book[step.Id] = (before + change, book[step.Id].Out + change);
            done.Add("correct");
        }

        private void Move(StripStep step, int to)
        {
            order.Remove(step.Id);
            order.Insert(to, step.Id);
            Place(step, to);
            done.Add("move");
        }

        private void StrikeOut(StripStep step)
        {
            if (step.StruckOutAt is not null)
            {
                StepRules.BringBack(step);
                book[step.Id] = (step.Count + step.ShimCount, step.Count + step.ShimCount);
            }
            else if (!Refused(StepRules.StrikeOut(step, "typed twice", Bench.Now).Failure))
            {
                book[step.Id] = (0, 0);
                done.Add("strike out");
            }
        }

        private void Account(StripStep step, int count, int more, FateFacts facts, string deed)
        {
            if (step.Items.Count == 0)
                return;
            var lot = step.Items[more % step.Items.Count];
            var pieces = (count % (lot.Count + 1)) + (more % 7 == 0 ? 0 : 1);
            if (Refused(ItemRules.Account(step, lot.Id, pieces, facts, Bench.Now, Bench.Mender).Failure))
                return;
            book[step.Id] = (book[step.Id].Removed, book[step.Id].Out - pieces);
            done.Add(deed);
        }

        private void TakeBack(StripStep step, int more)
        {
            if (step.Items.Count == 0)
                return;
            var lot = step.Items[more % step.Items.Count];
            var pieces = lot.Count;
            if (Refused(ItemRules.TakeBack(step, lot.Id).Failure))
                return;
            book[step.Id] = (book[step.Id].Removed, book[step.Id].Out + pieces);
            done.Add("take back");
        }

        private bool Refused(Results.Failure? failure)
        {
            if (failure is not null)
                refusals.Add(failure.GetType());
            return failure is not null;
        }
    }
}
